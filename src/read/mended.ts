// A text with some parts replaced, and the way back: where each place of the new text stood in the old one.

import type { Range } from './front-matter.js';

/** A part of a file's text, by offsets in the file, and what is read in its place. */
export interface Mend extends Range {
  readonly text: string;
  /**
   * For each character of `text` and for its end, the offset in the file that it came from. Where it is missing, all of
   * `text` stands at `start`, and its end at `end`.
   */
  readonly origins?: readonly number[];
}

/** The text that is parsed, and its places in the file. */
export interface Mended {
  readonly text: string;
  /** The offset in the file of an offset in `text`. */
  originOf(offset: number): number;
}

/** Applies mends to the part `range` of `source`. Of two that overlap the later one is left out. */
export function mendText(source: string, range: Range, mends: readonly Mend[]): Mended {
  if (mends.length === 0) {
    return { text: source.slice(range.start, range.end), originOf: (offset) => range.start + offset };
  }
  const pieces: Piece[] = [];
  const texts: string[] = [];
  let length = 0;
  const add = (text: string, start: number, mend?: Mend): void => {
    pieces.push({ from: length, start, ...(mend ? { mend } : {}) });
    texts.push(text);
    length += text.length;
  };
  let done = range.start;
  for (const mend of [...mends].sort((a, b) => a.start - b.start || a.end - b.end)) {
    if (mend.start < done || mend.end > range.end) continue;
    add(source.slice(done, mend.start), done);
    add(mend.text, mend.start, mend);
    done = mend.end;
  }
  add(source.slice(done, range.end), done);
  return { text: texts.join(''), originOf: (offset) => originIn(pieces, offset) };
}

interface Piece {
  readonly from: number;
  readonly start: number;
  readonly mend?: Mend;
}

function originIn(pieces: readonly Piece[], offset: number): number {
  let low = 0;
  let high = pieces.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((pieces[middle]?.from ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  const piece = pieces[low];
  if (!piece) return offset;
  const inside = offset - piece.from;
  if (!piece.mend) return piece.start + inside;
  return piece.mend.origins?.[inside] ?? (inside >= piece.mend.text.length ? piece.mend.end : piece.start);
}

/** The text in quotes so that YAML takes it letter by letter (a line end and an indent stay one space). */
export function quoteText(raw: string): string {
  return /["\\]/.test(raw) ? `'${raw.replaceAll("'", "''")}'` : `"${raw}"`;
}

/** The part of a file from `start` to `end` in quotes and on one line, every character with its place. */
export function quotePart(source: string, part: Range): Mend {
  const raw = source.slice(part.start, part.end);
  const origins = [part.start];
  const words: string[] = [];
  let done = 0;
  const keep = (to: number): void => {
    for (; done < to; done++) {
      words.push(raw[done] ?? '');
      origins.push(part.start + done);
    }
  };
  for (const fold of raw.matchAll(/[ \t]*(?:\r?\n[ \t]*)+/g)) {
    keep(fold.index);
    words.push(' ');
    origins.push(part.start + fold.index);
    done = fold.index + fold[0].length;
  }
  keep(raw.length);
  const quote = /["\\]/.test(raw) ? "'" : '"';
  if (quote === "'") doubleQuotes(words, origins);
  return { ...part, text: `${quote}${words.join('')}${quote}`, origins: [...origins, part.end, part.end] };
}

function doubleQuotes(words: string[], origins: number[]): void {
  for (let i = words.length - 1; i >= 0; i--) {
    if (words[i] !== "'") continue;
    words[i] = "''";
    origins.splice(i + 1, 0, origins[i + 1] ?? 0);
  }
}

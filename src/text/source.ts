// A book's files as text, and places in them. Places are offsets; line and column are worked out only at printing.

/** One file of a book: its path relative to the book (with `/`), and its text without a byte-order mark. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** A place in a file: UTF-16 offsets, `end` exclusive. */
export interface Span {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** A value and the place it was written at. */
export interface Located<T> {
  readonly value: T;
  readonly at: Span;
}

/**
 * A scalar's text as the author wrote it, with the way back to the file.
 *
 * `value` is the text after YAML's quoting and folding; `at` covers the words alone, without quotes or block header.
 * `offsets[i]` is the place in the file of `value[i]` (one entry more than `value` has characters). Where it is
 * missing, `value` stands letter by letter at `at.start`.
 */
export interface SourceText {
  readonly value: string;
  readonly at: Span;
  readonly offsets?: readonly number[];
}

/** The place in the file of the part `start` to `end` of a source text, both counted in its `value`. */
export function spanWithin(text: SourceText, start: number, end: number): Span {
  const place = (i: number): number => {
    const inside = Math.max(0, Math.min(i, text.value.length));
    return text.offsets?.[inside] ?? Math.min(text.at.start + inside, text.at.end);
  };
  const from = place(start);
  if (end <= start) return { file: text.at.file, start: from, end: from };
  // A folded space may stand for a line end and an indent: the part ends right behind its last character instead.
  const last = /\s/.test(text.value[end - 1] ?? '') ? place(end - 1) + 1 : place(end);
  return { file: text.at.file, start: from, end: Math.max(from, Math.min(last, text.at.end)) };
}

// From a scalar's source to its text, with the place in the file of every character. Knows YAML's quoting and folding,
// but takes the text itself from the parser: it only finds the way back.

import type { SourceText } from '../text/source.js';
import type { Range } from './front-matter.js';
import type { Mended } from './mended.js';

export type ScalarForm = 'plain' | 'single' | 'double' | 'block';

/** One character of the source after its escape is undone. */
interface Unit {
  readonly char: string;
  readonly start: number;
  readonly end: number;
}

/**
 * The text of a scalar that stands in `part` of the mended text, quotes or block header included.
 * `at` covers the words alone, without quotes or header.
 */
export function scalarText(
  from: { file: string; mended: Mended },
  part: Range,
  scalar: { form: ScalarForm; value: string },
): SourceText {
  const { text, originOf } = from.mended;
  const { value, form } = scalar;
  const inner = contentOf(text, part, form);
  const start = originOf(inner.start);
  const at = { file: from.file, start, end: Math.max(start, originOf(inner.end)) };
  const raw = text.slice(inner.start, inner.end);
  if (raw === value && at.end - at.start === value.length) return { value, at };
  const offsets = align(value, unitsOf(raw, inner.start, form), inner.start).map(originOf);
  return { value, at, offsets };
}

function contentOf(source: string, span: Range, form: ScalarForm): { start: number; end: number } {
  if (form === 'plain') return { start: span.start, end: span.end };
  if (form === 'block') {
    const header = /^[^\r\n]*(?:\r\n|\n|$)/.exec(source.slice(span.start, span.end))?.[0].length ?? 0;
    const indent = /^[ \r\n]*/.exec(source.slice(span.start + header, span.end))?.[0].length ?? 0;
    const trailing = /\s*$/.exec(source.slice(span.start + header + indent, span.end))?.[0].length ?? 0;
    const start = Math.min(span.start + header + indent, span.end);
    return { start, end: Math.max(start, span.end - trailing) };
  }
  const quote = form === 'single' ? "'" : '"';
  const closed = span.end - span.start > 1 && source[span.end - 1] === quote;
  const start = Math.min(span.start + 1, span.end);
  return { start, end: Math.max(start, closed ? span.end - 1 : span.end) };
}

const simpleEscapes: Readonly<Record<string, string>> = {
  '0': '\0',
  a: '\x07',
  b: '\b',
  e: '\x1b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
  v: '\v',
  N: '\x85',
  _: '\xa0',
  L: '\u2028',
  P: '\u2029',
  ' ': ' ',
  '"': '"',
  '/': '/',
  '\\': '\\',
  '\t': '\t',
};
const escapeLengths: Readonly<Record<string, number>> = { x: 2, u: 4, U: 8 };

function unitsOf(raw: string, base: number, form: ScalarForm): Unit[] {
  const units: Unit[] = [];
  for (let i = 0; i < raw.length; ) {
    const length = form === 'single' && raw.startsWith("''", i) ? 2 : form === 'double' ? escapeLength(raw, i) : 1;
    const chars = length === 1 ? (raw[i] ?? '') : form === 'single' ? "'" : undoEscape(raw.slice(i, i + length));
    for (const char of chars.split('')) units.push({ char, start: base + i, end: base + i + length });
    i += length;
  }
  return units;
}

function escapeLength(raw: string, i: number): number {
  if (raw[i] !== '\\' || i + 1 >= raw.length) return 1;
  const next = raw[i + 1] ?? '';
  if (next === '\n') return 2;
  if (next === '\r' && raw[i + 2] === '\n') return 3;
  const digits = escapeLengths[next];
  if (digits !== undefined) {
    const hex = raw.slice(i + 2, i + 2 + digits);
    return /^[0-9a-fA-F]+$/.test(hex) && hex.length === digits && Number.parseInt(hex, 16) <= 0x10ffff ? 2 + digits : 1;
  }
  return next in simpleEscapes ? 2 : 1;
}

function undoEscape(sequence: string): string {
  const kind = sequence[1] ?? '';
  if (kind in escapeLengths) return String.fromCodePoint(Number.parseInt(sequence.slice(2), 16));
  return simpleEscapes[kind] ?? '';
}

const isSpace = (char: string | undefined): boolean => char === ' ' || char === '\t' || char === '\n' || char === '\r';

/**
 * Letters stand in the same order in text and source, only white space is folded: so each letter is looked for past
 * white space, and a folded space stands where the white space starts that it came from.
 */
function align(value: string, units: readonly Unit[], base: number): number[] {
  const offsets: number[] = [];
  let next = 0;
  let end = base;
  for (const char of value.split('')) {
    if (!isSpace(char)) while (isSpace(units[next]?.char) && next < units.length) next += 1;
    const unit = units[next];
    offsets.push(unit?.start ?? end);
    if (unit?.char !== char) continue;
    end = unit.end;
    next += 1;
  }
  offsets.push(end);
  return offsets;
}

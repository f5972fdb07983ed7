// A YAML file line by line, as its author meant it: keys, list dashes, and texts that go on over more lines. Finds what
// YAML would cut, split or refuse. Builds nothing: the parser does, from the mended text.

import type { SourceFile } from '../text/source.js';
import { isBookKey } from './book-keys.js';
import type { Range } from './front-matter.js';
import type { Mend } from './mended.js';
import { noteTooDeep, type Scan } from './trap.js';
import { gluedKey } from './trap-flow-text.js';
import { noteDeepKeys, noteOddIndents, noteShallow } from './trap-indent.js';
import { noteSpaceAfterColon, noteSpaceAfterDash } from './trap-separators.js';
import { columnsOf, filledLine, keyEnd, lineEnd, nextLine } from './trap-signs.js';
import { scanValue } from './trap-value.js';

/** No key of a book stands further right; deeper nesting would run the parser out of stack. */
const deepestColumn = 200;

interface Lines {
  readonly scan: Scan;
  /** Indents of tabs or other odd spaces, and what is read in their place. */
  readonly odd: Mend[];
  /** Keys that stand deeper than they belong; their neighbours below follow them. */
  deep?: DeepKeys | undefined;
  /** Columns of the keys and of the dashes that are open, outermost first: where a line with tabs may belong. */
  readonly keys: number[];
  readonly dashes: number[];
}

/** Keys in column `from` that belong into column `to`. `note` is told of all mends once the last of them is seen. */
interface DeepKeys {
  readonly from: number;
  readonly to: number;
  readonly mends: Mend[];
  readonly note: (mends: readonly Mend[]) => void;
}

/** Where something starts, and the column of that place. */
interface Place {
  readonly at: number;
  readonly column: number;
}

/** Finds every trap in a file, or in the part of it in `range`. */
export function findTraps(file: SourceFile, range: Range): Scan {
  const scan: Scan = { file, text: textOf(file, range.end), traps: [], tooDeep: false };
  const lines: Lines = { scan, odd: [], keys: [], dashes: [] };
  for (let start = range.start; start < range.end && !scan.tooDeep; ) start = scanLine(lines, start);
  endDeepKeys(lines);
  noteOddIndents(scan, lines.odd);
  return scan;
}

/** The file's text up to `end` as it is parsed: a lone carriage return, which YAML does not know, ends a line as well. */
export function textOf(file: SourceFile, end: number): string {
  return file.text.slice(0, end).replace(/\r(?!\n)/g, '\n');
}

// A no-break space or another odd space looks like an indent but is none.
const oddSpace = /^[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]/;
const leading = /[ \t\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]*/y;

function scanLine(lines: Lines, start: number): number {
  const { text } = lines.scan;
  leading.lastIndex = start;
  const indent = leading.exec(text)?.[0] ?? '';
  const at = start + indent.length;
  if (at >= lineEnd(text, start) || text[at] === '#') return nextLine(text, at);
  const width = indent.includes('\t') ? tabbedColumn(lines, indent, text[at] === '-') : indent.length;
  if (lines.deep && width < lines.deep.from) endDeepKeys(lines);
  const column = lines.deep?.from === width ? lines.deep.to : width;
  const plain: Mend = { start, end: at, text: ' '.repeat(column) };
  if (/[^ ]/.test(indent)) lines.odd.push(plain);
  else if (column !== width) lines.deep?.mends.push(plain);
  return scanNode(lines, { at, column });
}

/** The column that a line with tabs was meant for: one that is open, if a tab counts as 2, 4 or 8 spaces for it. */
function tabbedColumn(lines: Lines, indent: string, isDash: boolean): number {
  const open = isDash ? lines.dashes : lines.keys;
  const widths = [2, 4, 8].map((tab) => indent.replaceAll('\t', ' '.repeat(tab)).length);
  return widths.find((width) => open.includes(width)) ?? columnsOf(indent);
}

function openColumn(columns: number[], column: number): void {
  while ((columns.at(-1) ?? -1) >= column) columns.pop();
  columns.push(column);
}

function endDeepKeys(lines: Lines): void {
  if (lines.deep && lines.deep.mends.length > 0) lines.deep.note(lines.deep.mends);
  lines.deep = undefined;
}

function scanNode(lines: Lines, found: Place): number {
  const { scan } = lines;
  const first = { ...found, column: shallowDash(lines, found) ?? found.column };
  const { dash, at, column } = pastDashes(lines, first);
  if (column > deepestColumn) {
    noteTooDeep(scan, at);
    return scan.text.length;
  }
  if (at >= lineEnd(scan.text, at) || /^[?:](?:\s|$)/.test(scan.text.slice(at, at + 2))) return nextLine(scan.text, at);
  const key = keyEnd(scan.text, at, false);
  if (key !== undefined && !(dash !== undefined && isSentence(scan, { at, column: dash }, key))) {
    const odd = oddSpace.exec(scan.text.slice(key, key + 1))?.[0];
    if (odd) noteSpaceAfterColon(scan, { start: at, end: key }, odd);
    return scanAfterKey(lines, { at, column }, odd ? key + 1 : key);
  }
  const glued = gluedKey(scan.text, at);
  if (glued !== undefined) {
    noteSpaceAfterColon(scan, { start: at, end: glued });
    return scanAfterKey(lines, { at, column }, glued);
  }
  return scanValue(scan, { at, parent: dash ?? column - 1, before: dash === undefined ? 'line' : 'dash' }).next;
}

function scanAfterKey(lines: Lines, key: Place, colon: number): number {
  const { text } = lines.scan;
  const closed = lines.keys.filter((column) => column > key.column);
  openColumn(lines.keys, key.column);
  while ((lines.dashes.at(-1) ?? -1) >= key.column) lines.dashes.pop();
  let at = colon;
  while (text[at] === ' ' || text[at] === '\t') at += 1;
  const value = scanValue(lines.scan, { at, parent: key.column, before: 'key' });
  if (value.deepKey !== undefined && !lines.deep) {
    const above = text.slice(key.at, colon).replace(/\s*:$/, '');
    // the keys before it and behind it stand in one column: it is this one that has left it
    const isShallow = closed.includes(value.deepKey.column) && !isBookKey(above) && isFirstOnLine(text, key);
    if (isShallow) {
      const mend = { start: key.at - key.column, end: key.at, text: ' '.repeat(value.deepKey.column) };
      noteShallow(lines.scan, { start: key.at, end: key.at + above.length }, mend);
      return value.next;
    }
    const { at: first, column: from } = value.deepKey;
    const note = (mends: readonly Mend[]): void => noteDeepKeys(lines.scan, { at: first, above, mends });
    lines.deep = { from, to: key.column, mends: [], note };
  }
  return value.next;
}

function isFirstOnLine(text: string, { at, column }: Place): boolean {
  return /^[\r\n]? *$/.test(text.slice(Math.max(0, at - column - 1), at));
}

/** The column of the items of a list, where one of them stands further left than all lists that are open. */
function shallowDash({ scan, dashes, deep }: Lines, first: Place): number | undefined {
  const { text } = scan;
  const open = dashes.at(-1);
  const isItem = /^- +[a-z{]/.test(text.slice(first.at, first.at + 8)) && isFirstOnLine(text, first);
  if (deep || open === undefined || !isItem || dashes.some((column) => column <= first.column)) return undefined;
  const mend = { start: first.at - first.column, end: first.at, text: ' '.repeat(open) };
  noteShallow(scan, { start: first.at, end: first.at + 1 }, mend);
  return open;
}

/** Past the dashes that open list items; `dash` is the column of the last one. */
function pastDashes(lines: Lines, first: Place): Place & { dash?: number } {
  const { text } = lines.scan;
  let { at, column } = first;
  let dash: number | undefined;
  while (text[at] === '-') {
    const gap = /^[ \t]*/.exec(text.slice(at + 1, at + 400))?.[0].length ?? 0;
    const ends = at + 1 + gap >= lineEnd(text, at);
    const isGlued = gap === 0 && !ends && isGluedDash(text, at);
    if (gap === 0 && !ends && !isGlued) break;
    if (isGlued) noteGluedDash(lines, { at, column });
    dash = column;
    openColumn(lines.dashes, column);
    at += 1 + gap;
    column += 1 + Math.max(gap, 1);
  }
  return { at, column, ...(dash === undefined ? {} : { dash }) };
}

/** `-id: x`: the keys below stand one column further left than they must once the space is there. */
function noteGluedDash(lines: Lines, dash: Place): void {
  const space: Mend = { start: dash.at + 1, end: dash.at + 1, text: ' ' };
  const note = (mends: readonly Mend[]): void => noteSpaceAfterDash(lines.scan, dash.at, mends);
  if (lines.deep) note([space]);
  else lines.deep = { from: dash.column + 1, to: dash.column + 2, mends: [space], note };
}

function isGluedDash(text: string, dash: number): boolean {
  const found = /^-([a-z][a-z-]*):(?:\s|$)/.exec(text.slice(dash, dash + 40));
  return (
    (found !== null && isBookKey(found[1] ?? '')) || /^-\{ *[a-z][a-z-]*:(?:\s|$)/.test(text.slice(dash, dash + 60))
  );
}

/** `- Grease: two tubes`: a capital word with a text behind it and nothing below is rather a sentence than a key. */
function isSentence(scan: Scan, dash: Place, key: number): boolean {
  const { text } = scan;
  if (!/^\p{Lu}\p{Ll}+:$/u.test(text.slice(dash.at, key)) || text.slice(key, lineEnd(text, key)).trim() === '')
    return false;
  const next = filledLine(text, nextLine(text, key));
  return !next || next.column <= dash.column;
}

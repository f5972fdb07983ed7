// A place in a file as the lines it stands in, with exactly its characters underlined. Works for tabs, wide and
// combining characters, places over several lines, and lines too long to show whole.

import type { SourceFile } from '../text/source.js';
import { type Cell, cellsOf } from './cells.js';
import type { Region } from './locate.js';

/** One printed line: its number (missing for an underline or a gap) and its text. */
export interface FrameLine {
  readonly number?: number;
  readonly text: string;
  /** `code`: a line of the file; `mark`: what underlines it; `gap`: lines left out. */
  readonly kind: 'code' | 'mark' | 'gap';
}

/** Columns of the file's text that are shown at most. */
const widest = 110;
/** A place over more lines than this shows its first and its last. */
const mostLines = 4;

/** The lines of `region` in a file, each followed by its underline made of `sign`. */
export function frame(source: SourceFile, region: Region, sign: string): readonly FrameLine[] {
  const lines = source.text.split(/\r\n|\r|\n/);
  const first = region.start.line;
  // A place that ends right at the start of a line does not reach into it.
  const last = region.end.column === 1 && region.end.line > first ? region.end.line - 1 : region.end.line;
  const shown: FrameLine[] = [];
  for (let line = first; line <= last; line++) {
    if (last - first >= mostLines && line > first && line < last) {
      if (line === first + 1) shown.push({ text: '…', kind: 'gap' });
      continue;
    }
    const text = lines[line - 1] ?? '';
    const indent = text.length - text.trimStart().length;
    const from = line === first ? region.start.column - 1 : indent;
    const to = line === region.end.line ? region.end.column - 1 : text.trimEnd().length;
    shown.push(...underline(line, text, { from, to: Math.max(from, to), sign }));
  }
  return shown;
}

interface Mark {
  readonly from: number;
  readonly to: number;
  readonly sign: string;
}

function underline(number: number, text: string, mark: Mark): readonly FrameLine[] {
  const cells = cellsOf(text);
  const [first, last] = cellRange(cells, mark);
  const window = windowOf(cells, first, last);
  const visible = cells.slice(window.start, window.end);
  const before = widthOf(cells.slice(window.start, Math.min(first, window.end)));
  const marked = widthOf(cells.slice(Math.max(first, window.start), Math.min(last, window.end)));
  const lead = window.start > 0 ? '… ' : '';
  const code = `${lead}${visible.map((cell) => cell.shown).join('')}${window.end < cells.length ? ' …' : ''}`;
  const marks = `${' '.repeat(lead.length + before)}${mark.sign.repeat(Math.max(1, marked))}`;
  return [
    { number, text: code.trimEnd(), kind: 'code' },
    { text: marks, kind: 'mark' },
  ];
}

/** The cells that a mark touches; a mark inside a character covers all of it. */
function cellRange(cells: readonly Cell[], mark: Mark): [number, number] {
  const ends = (index: number): number => cells[index + 1]?.start ?? Number.POSITIVE_INFINITY;
  let first = cells.findIndex((cell, index) => ends(index) > mark.from && cell.start <= mark.from);
  if (first < 0 || mark.from >= lengthOf(cells)) first = cells.length;
  if (mark.to <= mark.from) return [first, first];
  const last = cells.findIndex((cell) => cell.start >= mark.to);
  return [first, last < 0 ? cells.length : last];
}

function lengthOf(cells: readonly Cell[]): number {
  const last = cells.at(-1);
  return last ? last.start + last.shown.length : 0;
}

function widthOf(cells: readonly Cell[]): number {
  return cells.reduce((sum, cell) => sum + cell.width, 0);
}

/** The cells to show: all where they fit, else a stretch around the marked ones with some before them. */
function windowOf(cells: readonly Cell[], first: number, last: number): { start: number; end: number } {
  if (widthOf(cells) <= widest) return { start: 0, end: cells.length };
  const room = Math.max(12, Math.floor((widest - widthOf(cells.slice(first, last))) / 2));
  let start = first;
  for (let width = 0; start > 0 && width < room; start--) width += cells[start - 1]?.width ?? 0;
  let end = start;
  for (let width = 0; end < cells.length && width < widest; end++) width += cells[end]?.width ?? 0;
  for (let width = widthOf(cells.slice(start, end)); start > 0 && width < widest; start--)
    width += cells[start - 1]?.width ?? 0;
  return { start, end };
}

// Slips in what stands where: a step or a condition left out, two steps in each other's place. Whole lines are taken in a
// block, parts between commas in braces.

import type { YamlEntry, YamlList, YamlMap, YamlNode } from '../read/tree.js';
import { entryOf } from '../read/tree.js';
import type { Piece } from '../text/edited.js';
import type { SourceFile, Span } from '../text/source.js';

/** A stretch of a file, `end` exclusive. */
interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** The whole lines of an item of a list in a block: from its dash to the line before the next one. Undefined in brackets. */
export function linesOfItem(file: SourceFile, list: YamlList, index: number): Stretch | undefined {
  const item = list.items[index];
  if (!item || file.text[list.at.start] === '[') return undefined;
  const start = lineStart(file.text, item.at.start);
  if (!/^\s*-\s+$/.test(file.text.slice(start, item.at.start))) return undefined;
  return { start, end: lineEnd(file.text, endOf(item)) };
}

/** The text without an entry of a map; without the whole entry `around` where the map would be left empty. */
export function withoutEntry(
  file: SourceFile,
  map: YamlMap,
  { index, around }: { readonly index: number; readonly around?: YamlEntry & { readonly in: YamlMap } },
): { readonly pieces: readonly Piece[]; readonly at: Span } | undefined {
  const entry = map.entries[index];
  if (!entry) return undefined;
  const at = { file: file.path, start: entry.key.at.start, end: endOf(entry.value) };
  if (map.entries.length === 1 && around) {
    const outer = around.in.entries.findIndex(({ key }) => key === around.key);
    const without = withoutEntry(file, around.in, { index: outer });
    return without && { ...without, at };
  }
  const stretch = file.text[map.at.start] === '{' ? betweenCommas(map, index) : linesOfEntry(file, entry);
  return stretch && { pieces: leavingOut(file, stretch), at };
}

/** The text without a stretch. */
export function leavingOut(file: SourceFile, { start, end }: Stretch): readonly Piece[] {
  return [
    { start: 0, end: start },
    { start: end, end: file.text.length },
  ];
}

/** The text with two stretches in each other's place, the first of them standing first. */
export function swapping(file: SourceFile, first: Stretch, second: Stretch): readonly Piece[] {
  return [
    { start: 0, end: first.start },
    second,
    { start: first.end, end: second.start },
    first,
    { start: second.end, end: file.text.length },
  ];
}

/** The id of a step, as it is written. */
export function idOf(step: YamlNode): string {
  const id = entryOf(step, 'id')?.value;
  return id?.kind === 'scalar' ? id.text.value : '';
}

function betweenCommas({ entries }: YamlMap, index: number): Stretch | undefined {
  const entry = entries[index];
  const next = entries[index + 1];
  const before = entries[index - 1];
  if (entry && next) return { start: entry.key.at.start, end: next.key.at.start };
  return entry && before ? { start: endOf(before.value), end: endOf(entry.value) } : undefined;
}

function linesOfEntry({ text }: SourceFile, { key, value }: YamlEntry): Stretch | undefined {
  const start = lineStart(text, key.at.start);
  if (text.slice(start, key.at.start).trim() !== '') return undefined;
  return { start, end: lineEnd(text, endOf(value)) };
}

/** Behind the last character of what is written there, a closing bracket included. */
function endOf(node: YamlNode): number {
  return node.at.end;
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

/** Behind the line in which the character before `at` stands. */
function lineEnd(text: string, at: number): number {
  const found = text.indexOf('\n', Math.max(0, at - 1));
  return found < 0 ? text.length : found + 1;
}

// What was read from an edited file, with every place in it led back to the file before the edit: so it can stand beside
// what was read before, and both speak of the same places. Changes no object; parts without places stay the same objects.

import type { Edited, Side } from './edited.js';

type Plain = Readonly<Record<string, unknown>>;

/** Gives `made` with each place in the edited file led back. */
export function moveBack<T>(made: T, { file, back }: Edited): T {
  const known = new Map<object, unknown>();
  const mover: Mover = { path: file.path, back, known };
  return move(made, mover) as T;
}

interface Mover {
  readonly path: string;
  readonly back: (offset: number, side: Side) => number;
  readonly known: Map<object, unknown>;
}

function move(value: unknown, mover: Mover): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const known = mover.known.get(value);
  if (known !== undefined) return known;
  const moved = moveObject(value, mover);
  mover.known.set(value, moved);
  return moved;
}

function moveObject(value: object, mover: Mover): unknown {
  if (Array.isArray(value)) return moveItems(value, mover);
  if (value instanceof Map) return moveEntries(value, mover);
  if (value instanceof Set) return value;
  const plain = value as Plain;
  if (isSpanIn(plain, mover.path)) return moveSpan(plain, mover);
  if (isSourceText(plain) && isSpanIn(plain.at as Plain, mover.path)) return moveSourceText(plain, mover);
  let changed: Record<string, unknown> | undefined;
  for (const key of Object.keys(plain)) {
    const moved = move(plain[key], mover);
    if (moved === plain[key]) continue;
    changed ??= { ...plain };
    changed[key] = moved;
  }
  return changed ?? value;
}

function moveItems(items: readonly unknown[], mover: Mover): readonly unknown[] {
  const moved = items.map((item) => move(item, mover));
  return moved.some((item, index) => item !== items[index]) ? moved : items;
}

function moveEntries(map: ReadonlyMap<unknown, unknown>, mover: Mover): ReadonlyMap<unknown, unknown> {
  let isChanged = false;
  const moved = new Map<unknown, unknown>();
  for (const [key, value] of map) {
    const after = move(value, mover);
    if (after !== value) isChanged = true;
    moved.set(key, after);
  }
  return isChanged ? moved : map;
}

function isSpanIn(value: Plain | undefined, path: string): boolean {
  return value !== undefined && value.file === path && typeof value.start === 'number' && typeof value.end === 'number';
}

function isSourceText(value: Plain): boolean {
  return typeof value.value === 'string' && typeof value.at === 'object' && value.at !== null;
}

function moveSpan(span: Plain, { back }: Mover): Plain {
  const start = Number(span.start);
  const end = Number(span.end);
  const from = back(start, 'start');
  return { ...span, start: from, end: end > start ? Math.max(from, back(end, 'end')) : from };
}

/** A text that was edited no longer stands letter by letter: each letter then has its own way back. */
function moveSourceText(text: Plain, mover: Mover): Plain {
  const at = text.at as Plain;
  const value = String(text.value);
  const offsets = text.offsets as readonly number[] | undefined;
  const moved = moveSpan(at, mover);
  const isWhole =
    offsets === undefined && Number(moved.end) - Number(moved.start) === Number(at.end) - Number(at.start);
  if (isWhole || (offsets === undefined && Number(at.end) - Number(at.start) !== value.length))
    return { ...text, at: moved };
  const old = offsets ?? Array.from({ length: value.length + 1 }, (_, index) => Number(at.start) + index);
  const last = old.length - 1;
  return {
    ...text,
    at: moved,
    offsets: old.map((offset, index) => mover.back(offset, index === last ? 'end' : 'start')),
  };
}

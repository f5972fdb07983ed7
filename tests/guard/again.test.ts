// Checking again after an edit must find what a check from scratch finds.

import { describe, expect, it } from 'vitest';
import { checkAgain, placeKey as wholeKey } from '../../src/compile/again.js';
import { type Kept, keepBook } from '../../src/compile/kept.js';
import { type CheckInput, checkBook } from '../../src/compile.js';
import { findSlips } from '../../src/guard/find-slips.js';
import { sampleOf } from '../../src/guard/sample.js';
import type { Slip } from '../../src/guard/slip.js';
import { type Edited, editFile, replacing } from '../../src/text/edited.js';
import { moveBack } from '../../src/text/moved.js';
import { bookAt } from './book.js';

/** The code and where it begins: inside a text that was changed an end may lie elsewhere. */
function placeKey(diagnostic: Parameters<typeof wholeKey>[0]): string {
  return wholeKey(diagnostic).replace(/ \d+$/, '');
}

function kept(input: CheckInput): Kept {
  const found = keepBook(input).kept;
  if (!found) throw new Error('The book has errors');
  return found;
}

function editOf(input: CheckInput, slip: Slip): Edited {
  const file = input.sources.get(slip.at.file);
  if (!file) throw new Error(`No ${slip.at.file}`);
  return editFile(file, slip.pieces);
}

/** New errors and warnings of a check from scratch, at their places before the edit. */
function fromScratch(before: Kept, edited: Edited): ReadonlySet<string> {
  const sources = new Map(before.input.sources).set(edited.file.path, edited.file);
  const { diagnostics } = checkBook({ ...before.input, sources });
  const known = new Set(before.diagnostics.map(placeKey));
  const counted = moveBack(diagnostics, edited).filter(({ severity }) => severity !== 'hint');
  // what follows from another fault stands beside it, without its code
  const beside = counted.flatMap(({ related }) => related.map(({ at }) => besideKey(at)));
  return new Set([...counted.map(placeKey).filter((key) => !known.has(key)), ...beside]);
}

function besideKey({ file, start }: { readonly file: string; readonly start: number }): string {
  return `beside ${file} ${start}`;
}

/** What checking again finds up to the first stage that finds anything. */
function firstFound(before: Kept, edited: Edited): readonly string[] {
  const known = new Set(before.diagnostics.map(placeKey));
  for (const { diagnostics } of checkAgain(before, edited)) {
    const counted = diagnostics.filter(({ severity }) => severity !== 'hint');
    const found = counted.map(placeKey).filter((key) => !known.has(key));
    if (found.length > 0) return found;
  }
  return [];
}

function expectSame(before: Kept, slip: Slip): void {
  const edited = editOf(before.input, slip);
  const all = fromScratch(before, edited);
  const found = firstFound(before, edited);
  const what = `${slip.kind} in ${slip.at.file}, ${slip.path}: ${slip.before} -> ${slip.after}`;
  expect(found.length > 0, what).toBe(all.size > 0);
  const isTold = (key: string): boolean => all.has(key) || all.has(key.replace(/^\S+/, 'beside'));
  expect(found.some(isTold) || found.length === 0, `${what}: ${found} of ${[...all]}`).toBe(true);
}

describe('checking again', () => {
  it('finds in a small book what a check from scratch finds', () => {
    const before = kept(bookAt('tests/books/base'));
    const slips = sampleOf(findSlips(before.input.sources, before.book), { size: 100, seed: 7 });
    expect(slips).toHaveLength(100);
    for (const slip of slips) expectSame(before, slip);
  }, 300_000);

  it('finds in the demo what a check from scratch finds', () => {
    const before = kept(bookAt('procedures'));
    const slips = sampleOf(findSlips(before.input.sources, before.book), { size: 6, seed: 3 });
    for (const slip of slips) expectSame(before, slip);
  }, 300_000);

  it('finds nothing where nothing changes', () => {
    const before = kept(bookAt('tests/books/base'));
    const file = before.input.sources.get('headers/row-12x20.yaml');
    if (!file) throw new Error('No header');
    const at = file.text.indexOf('parameters:');
    const edited = editFile(file, replacing(file, { start: at, end: at }, '# a remark\n'));
    expect(firstFound(before, edited)).toEqual([]);
    expect([...checkAgain(before, edited)].at(-1)?.sameMeaning).toBe(true);
  });
});

describe('editFile', () => {
  const file = { path: 'a.yaml', text: 'abc def ghi' };

  it('leads places back', () => {
    const { file: edited, back } = editFile(file, replacing(file, { start: 4, end: 7 }, 'xy'));
    expect(edited.text).toBe('abc xy ghi');
    expect([back(0, 'start'), back(4, 'start'), back(6, 'end'), back(7, 'start')]).toEqual([0, 4, 7, 8]);
  });

  it('leads places in exchanged stretches back to where they stood', () => {
    const pieces = [
      { start: 4, end: 8 },
      { start: 0, end: 4 },
      { start: 8, end: 11 },
    ];
    const { file: edited, back } = editFile(file, pieces);
    expect(edited.text).toBe('def abc ghi');
    expect([back(0, 'start'), back(4, 'start'), back(4, 'end'), back(8, 'start')]).toEqual([4, 0, 8, 8]);
  });
});

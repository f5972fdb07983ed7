// What changed between two books: each edit is told once, under the right heading, and the other way round from the other
// side; nothing is told of what is the same.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareBooks } from '../../src/history/compare.js';
import type { CompiledBook } from '../../src/model/compiled-book.js';
import { filesOfBook } from '../emit-pages/books.js';
import { compiledDemo, edited, essence, linesOf } from './books.js';
import { edits } from './edits.js';

const base = edited();

describe('an edit is told once, and for the rigs that it holds for', () => {
  it.each(edits)('%s', (_, changes, lines) => {
    const after = edited(changes);
    const forth = compareBooks(base, after);
    expect(linesOf(forth)).toEqual(lines);
    expect(essence(compareBooks(after, base), true)).toEqual(essence(forth, false));
  });

  it('says which cards a changed caution stands on, unless their revision went up', () => {
    const caution = ['safety.yaml', 'Let nobody near it', 'Let nobody stand near it'] as const;
    const learn = 'sensors/learn-height-range.md';
    expect(compareBooks(base, edited([caution])).shared[0]?.printed).toEqual(['learn-height-range']);
    const raised = compareBooks(base, edited([caution, [learn, 'revision: 3', 'revision: 4']]));
    expect(raised.shared[0]?.printed).toBeUndefined();
    expect(raised.procedures[0]?.alert).toBeUndefined();
  });

  it('tells a renamed file as renamed, though it comes with a new revision', () => {
    const file = 'sensors/learn-height-range.md';
    const { [file]: text = '' } = Object.fromEntries(textsOfBase());
    const renamed = edited(
      [],
      new Map([...textsOfBase()].map(([path, own]) => [path === file ? 'sensors/learn-range.md' : path, own])),
    );
    expect(text).not.toBe('');
    expect(linesOf(compareBooks(base, renamed))).toEqual([
      'learn-range text: Procedure learn-range: renamed: learn-height-range → learn-range',
    ]);
  });

  it('tells a procedure that is new, and one that is gone', () => {
    const more = edited([['sensors/look.md', '', look]]);
    expect(linesOf(compareBooks(base, more))).toEqual(['look: new']);
    expect(linesOf(compareBooks(more, base))).toEqual(['look: gone']);
  });
});

const look = `---
title: Look at the display
kind: inspection
summary: Nothing else.
revision: 1
status: released
applies: all
tools: none
supplies: none
hazards: none
requires: none
steps:
  - { id: look, do: Look at the display. }
leaves: none
---
`;

function textsOfBase(): ReadonlyMap<string, string> {
  return filesOfBook('tests/books/base').texts;
}

describe('two books', () => {
  const demo = compiledDemo();

  it('that are the same have no changes', () => {
    for (const book of [base, demo]) {
      const count = new Set(book.variants.map(({ procedure }) => procedure.id)).size;
      expect(compareBooks(book, structuredClone(book))).toEqual({ shared: [], procedures: [], unchanged: count });
    }
  });

  it('are the same whatever order their files, machines, procedures, rules and variants stand in', () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (draws) => {
        const shuffled = shuffle(demo, () => draws.next().value ?? 0);
        expect(linesOf(compareBooks(demo, shuffled))).toEqual([]);
      }),
      { numRuns: 5, seed: 7 },
    );
  });

  it('say of several edits together what each says alone', () => {
    const alone = edits.slice(0, 8).filter(([name]) => !/header|unit spells/.test(name));
    fc.assert(
      fc.property(fc.subarray([...alone.keys()], { minLength: 2 }), (chosen) => {
        const picked = chosen.flatMap((i) => alone[i] ?? []);
        const all = chosen.flatMap((i) => alone[i]?.[1] ?? []);
        const lines = linesOf(compareBooks(base, edited(all)));
        const wanted = new Set(chosen.flatMap((i) => alone[i]?.[2] ?? []));
        expect(picked.length).toBeGreaterThan(0);
        expect([...lines].sort()).toEqual([...wanted].sort());
      }),
      { numRuns: 10, seed: 3 },
    );
  });
});

function shuffle(book: CompiledBook, draw: () => number): CompiledBook {
  const mixed = <T>(list: readonly T[]): readonly T[] =>
    list
      .map((one) => ({ one, at: draw() }))
      .sort((a, b) => a.at - b.at)
      .map(({ one }) => one);
  const { machines, headers, hazards, rules, physics, states, events, variants, instruments } = book;
  return {
    ...book,
    machines: mixed(machines),
    headers: mixed(headers),
    hazards: mixed(hazards),
    rules: mixed(rules),
    physics: mixed(physics),
    states: mixed(states),
    events: mixed(events),
    instruments: mixed(instruments),
    variants: mixed(variants).map((variant) => ({ ...variant, applies: mixed(variant.applies) })),
  };
}

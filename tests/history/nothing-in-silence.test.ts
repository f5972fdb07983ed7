// Nothing changes in silence: whichever word, number or mark of a compiled book is another, something is said. What is left
// out of that follows from something else, and is listed here.

import { describe, expect, it } from 'vitest';
import { compileBook } from '../../src/build.js';
import { compareBooks } from '../../src/history/compare.js';
import type { CompiledBook } from '../../src/model/compiled-book.js';
import { bookOf, filesOfBook } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';

/** A key, and what it follows from: that changes with it. */
const follows: Readonly<Record<string, string>> = {
  format: 'every book has the same',
  version: 'every book has the same',
  hash: 'a digest of the content',
  pages: 'where the site has it',
  cards: 'where the site has it',
  rigs: 'the rigs in parts say the same',
  number: 'the place of the step',
  low: 'the exact ends',
  high: 'the exact ends',
  ucum: 'the symbol of the unit',
  unit: 'the limits as they are shown, where there are any',
  moves: 'the effects',
  inputs: 'the formula',
  depth: 'how a heading looks',
  bundle: 'the conditions of the bundle',
  builtIn: 'the instrument itself',
};

/** Ways to what follows from something else and has no key of its own. */
const followWays: readonly RegExp[] = [
  /\/instrument\/label\//, // the instrument itself
  /\/tools\/\d+\/label\//, // the tool itself
  /\/requires\/\d+\/words\//, // the condition
  /\/resolution$/, // the exact resolution
  /\/effects\/\d+\/shown$/, // the exact bounds
  /\/procedure\/revision$/, // is told as a revision, one for all versions
  /^\/variants\/\d+\/id$/,
  /^\/variants\/\d+\/ends\//,
];

const { figures } = filesOfBook('tests/books/base');
const { resolved } = bookOf(withMore(smallTexts()), {
  figures,
  proved: false,
  pass: ['missing-language', 'raw-html', 'unknown-procedure'],
});
const book = compileBook(resolved, figures);

/** A procedure with what the others lack. */
function withMore(texts: Map<string, string>): Map<string, string> {
  texts.set(
    'wrong/turn-sensor.md',
    `---
title: Turn the sensor
kind: adjustment
summary: Turns the sensor until it reads right.
revision: 1
status: released
applies: all
skill: technician
people: 2
tools: [wrench]
supplies: [Grease]
hazards: [moving-header]
requires: none
voided-by: [sensor-change]
due: every 50 h
values:
  ground:
    label: Sensor on the ground
    quantity: voltage
    limits: 3.6 to 4.2 V
    nominal: 3.9 V
    inside: 0.2 to 4.8 V
    read-with: multimeter
    read-at: beside
adjusters:
  turn:
    label: Turn the sensor body
    range: -12 to 12 deg
    smallest: 0.5 deg
    positive: clockwise
    moves: { ground: 0.45 V for 10 deg }
    watch: ground
worksheets:
  loads:
    rows: 2 to 4
    columns:
      shown: { label: Shown, unit: lb }
      scale: { label: Scale, unit: lb, limits: at least 10 lb }
      error: { label: Error, from: (shown - scale) / scale, unit: "%" }
    results:
      worst: { label: Largest error, from: max(abs(error)), limits: at most 3 % }
steps:
  - { id: read, at: beside, do: Read it., measure: ground, when: { outside: turn } }
  - { id: leave, do: Leave it., then: weigh }
  - { id: turn, at: beside, by: 2, photo: asked, do: Turn it., needs: safe-to-reach-in, hazard: [moving-header], adjust: turn, then: { go: read, at-most: 3, else: call-service } }
  - { id: wait, do: Wait., wait: 60 s, stale: [ground], energized: { why: It must run., keep-away: Stay three feet away., second-person: One stays at the key. } }
  - { id: weigh, do: Weigh it., measure: loads, mark: [good, replace], when: { outside: stop } }
any-order: none
leaves: { done: { person: cab }, stop: { engine: "off" } }
---
`,
  );
  return texts;
}

/** Every word, number and mark of the book, by the way to it. */
function* leavesOf(part: unknown, way: string): Iterable<string> {
  if (typeof part !== 'object' || part === null) yield way;
  // what comes from a bundle is the bundle's, and the heading of a step's detail is the step
  else if ('bundle' in part) yield `${way}/bundle`;
  else if ('step' in part && 'markdown' in part) yield* [`${way}/step`, `${way}/markdown`];
  else for (const [key, inner] of Object.entries(part)) yield* leavesOf(inner, `${way}/${key}`);
}

function changedAt(way: string): CompiledBook {
  const copy = structuredClone(book) as unknown as Record<string, unknown>;
  const keys = way.split('/').slice(1);
  const last = keys.pop() ?? '';
  const holder = keys.reduce<Record<string, unknown>>((at, key) => at[key] as Record<string, unknown>, copy);
  const value = holder[last];
  holder[last] = typeof value === 'string' ? `${value}x` : typeof value === 'number' ? value + 1 : !value;
  return copy as unknown as CompiledBook;
}

describe('a compiled book', () => {
  const ids = book.variants.map(({ procedure }) => procedure.id);
  // other versions of a procedure are made of the same
  const isFirst = (way: string): boolean => {
    const place = Number(/^\/variants\/(\d+)/.exec(way)?.[1] ?? -1);
    return place < 0 || ids.indexOf(ids[place] ?? '') === place;
  };
  const ways = [...leavesOf(book, '')].filter((way) => !followWays.some((pattern) => pattern.test(way)));
  const own = ways
    .filter(isFirst)
    .filter((way) => !way.split('/').some((key) => Object.hasOwn(follows, key)) || way.startsWith('/ends'));

  it('has no leaf that may be another without a word', () => {
    const silent = own.filter((way) => {
      const { shared, procedures } = compareBooks(book, changedAt(way));
      return shared.length + procedures.length === 0;
    });
    expect(own.length).toBeGreaterThan(400);
    expect(silent).toEqual([]);
  });

  it('has nothing on the list of what follows that it does not have', () => {
    const keys = new Set(ways.flatMap((way) => way.split('/')));
    expect(Object.keys(follows).filter((key) => !keys.has(key))).toEqual([]);
  });
});

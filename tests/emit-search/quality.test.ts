// How well the search answers what people ask, measured over labelled queries on the demo book. The floors may only rise.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SearchFile } from '../../src/emit/search/index-shape.js';
import { narrowLines } from '../../src/emit/search/narrow.js';
import { qualityOf, slipsBetween } from '../../src/emit/search/quality.js';
import { indexFile, openSearch } from '../../src/emit/search/query.js';
import { demoBook } from '../emit-pages/books.js';
import { type QueryKind, queries } from './queries.js';
import { meanReciprocalRank, rankQueries } from './rank.js';

const floors: Readonly<Record<QueryKind, number>> = {
  clean: 0.95,
  misspelt: 0.95,
  synonym: 0.85,
  symptom: 0.9,
  value: 1,
  code: 0.95,
  spanish: 0.85,
  'spanish-misspelt': 0.85,
};

describe('the labelled queries', () => {
  const ranked = rankQueries(demoBook({ proved: false }).resolved, queries);

  it('are enough of each kind to say something', () => {
    expect(queries.length).toBeGreaterThanOrEqual(120);
    expect(new Set(queries.map(({ home, query }) => `${home} ${query}`)).size).toBe(queries.length);
    for (const kind of Object.keys(floors)) {
      expect(queries.filter((query) => query.kind === kind).length).toBeGreaterThanOrEqual(9);
    }
  });

  for (const [kind, floor] of Object.entries(floors)) {
    it(`of the kind ${kind} have a mean reciprocal rank of ${floor} at least`, () => {
      const own = ranked.filter(({ query }) => query.kind === kind);
      const missed = own.filter(({ place }) => place !== 1).map(({ query, found }) => `${query.query}: ${found[0]}`);
      expect(meanReciprocalRank(own), missed.join('\n')).toBeGreaterThanOrEqual(floor);
    });
  }
});

/** A home with two lines that differ in their code alone, and some words. */
function fileOf(lines: SearchFile['lines'], rest: Partial<SearchFile> = {}): SearchFile {
  const kinds = { t: 't', s: 's', v: 'v', n: 'n', p: 'p' };
  return {
    version: 1,
    procedures: [
      ['One', 'one/'],
      ['Two', 'two/'],
    ],
    lines,
    synonyms: [],
    kinds,
    ...rest,
  };
}

describe('codes', () => {
  const search = openSearch([
    indexFile(
      fileOf([
        ['s', 0, 'The display shows P-8', '', ''],
        ['s', 1, 'The display shows P-88 or E204', '', ''],
      ]),
    ),
  ]);
  const found = (query: string): readonly number[] => search(query).map(({ procedure }) => procedure);

  it('are found however they are spaced, and exactly', () => {
    for (const query of ['P-8', 'P8', 'P 8', 'p8', 'p 8']) expect([query, found(query)[0]]).toEqual([query, 0]);
    for (const query of ['P-88', 'p88', 'P 88', 'E204', 'e 204']) expect([query, found(query)]).toEqual([query, [1]]);
    expect(found('E205')).toEqual([]);
  });
});

describe('what was typed wrong', () => {
  // distances of the literature on the Levenshtein distance and its restricted form with exchanges, from memory
  it('is counted by letters, exchanged neighbours as one', () => {
    expect(slipsBetween('kitten', 'sitting')).toBe(3);
    expect(slipsBetween('ca', 'abc')).toBe(3);
    expect(slipsBetween('saef', 'safe')).toBe(1);
    expect(slipsBetween('', 'abc')).toBe(3);
  });

  it('is a distance: nothing to itself, the same both ways', () => {
    const word = fc.string({ maxLength: 9 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(slipsBetween(a, a)).toBe(0);
        expect(slipsBetween(a, b)).toBe(slipsBetween(b, a));
        expect(slipsBetween(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });

  it('never counts as much as the word itself or a form of it', () => {
    const ladder = ['sensor', 'sensors', 'sensormount', 'sensr', 'sesnr'].map((term) => qualityOf('sensor', term));
    expect(ladder).toEqual([...ladder].sort((a, b) => b - a));
    expect(ladder[0]).toBe(1);
    expect(qualityOf('learn', 'learned')).toBeGreaterThan(0.9);
    expect(qualityOf('stop', 'step')).toBeLessThan(0.8);
  });

  it('leaves words that are met exactly before those that are nearly so', () => {
    const search = openSearch([
      indexFile(
        fileOf([
          ['t', 0, 'Steps of the cab', '', ''],
          ['t', 1, 'Stops of the lift', '', ''],
        ]),
      ),
    ]);
    expect(search('stops').map(({ procedure }) => procedure)).toEqual([1]);
    expect(search('stosp')[0]?.procedure).toBe(1);
  });
});

describe('a machine that is known', () => {
  const lines: SearchFile['lines'] = [
    ['t', 0, 'Learn the range', '', ''],
    ['v', 0, 'Raised (display software 4.2)', 'new/#step-3', '1 V'],
    ['v', 0, 'Raised (display software 3.10)', 'old/#step-3', '2 V'],
    ['p', 0, 'Lower the header', '#step-1', '1'],
    ['t', 1, 'Tilt', '', ''],
  ];
  const file = fileOf(lines, {
    narrowed: [
      [0, 'new/', [{ options: {}, software: { display: ['4.2'] } }]],
      [0, 'old/', [{ options: {}, software: { display: ['3.10'] } }]],
      [1, '', [{ options: { tilt: true }, software: {} }]],
    ],
  });
  const narrowed = (known: Parameters<typeof narrowLines>[2]): readonly string[] =>
    narrowLines(file, file.narrowed ?? [], known).lines.map(([, , text, anchor]) => `${text} ${anchor}`);

  it('is shown its own version and nothing that is not for it', () => {
    expect(narrowed({ options: { tilt: false }, software: { display: '4.2' } })).toEqual([
      'Learn the range new/',
      'Raised (display software 4.2) new/#step-3',
      'Lower the header new/#step-1',
    ]);
  });

  it('loses nothing as long as nothing is known of it', () => {
    expect(narrowed({ options: {}, software: {} }).length).toBe(lines.length);
  });
});

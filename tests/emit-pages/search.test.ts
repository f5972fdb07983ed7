// Search: what words it takes text for, and what it finds on a home of the demo book.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { indexFile, markParts, openSearch, rephrase, type Search } from '../../src/emit/search/query.js';
import { buildSearch, synonymsOf } from '../../src/emit/search/search-files.js';
import { fold, queryWords, tokenize } from '../../src/emit/search/tokenize.js';
import { withTrueLanguages } from '../../src/emit/translated.js';
import { voiceFor } from '../../src/emit/voice.js';
import { demoBook } from './books.js';

const words = (text: string): readonly string[] => tokenize(text).map(({ word }) => word);
const asked = (text: string): readonly string[] => queryWords(text).map(({ word }) => word);

describe('words to search by', () => {
  it('take a code for one word however it is spaced', () => {
    for (const code of ['P-8', 'P8', 'P 8', 'p-8', 'p 8']) expect(asked(code)).toEqual(['p8']);
    for (const text of ['Part P-8 is loose', 'Part P8 is loose', 'Part P 8 is loose'])
      expect(words(text)).toContain('p8');
    expect(asked('F-214')).toEqual(['f214']);
    expect(asked('70-00317')).toEqual(['7000317']);
  });

  it('take no sentence for a code', () => {
    expect(words('limits 3 to 4 V')).not.toContain('to4');
    expect(words('12 rows at 20 in')).toEqual(['12', 'rows', 'at', '20', 'in']);
    expect(words('3.63 to 4.17 V')).toEqual(['3.63', 'to', '4.17', 'v']);
    expect(words('It stops.The belt')).toEqual(['it', 'stops', 'the', 'belt']);
  });

  it('fold accents and case', () => {
    expect(fold('Tensión ÑANDÚ')).toBe('tension nandu');
    expect(asked('presión')).toEqual(asked('PRESION'));
  });

  it('leave out words that say nothing, unless nothing else is asked', () => {
    expect(asked('the range is not stored')).toEqual(['range', 'stored']);
    expect(asked('is it on')).toEqual(['is', 'it', 'on']);
    expect(asked('   ')).toEqual([]);
  });

  it('give the same for a text and its folded form', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(words(fold(text))).toEqual(words(text));
      }),
    );
  });
});

describe('marking', () => {
  it('loses no letter of a line', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.array(fc.string()), (text, met) => {
        expect(
          markParts(text, new Set(met))
            .map((part) => part.text)
            .join(''),
        ).toBe(text);
      }),
    );
    expect(markParts('Height sensor, raised', new Set(['sensor']))).toEqual([
      { text: 'Height ', met: false },
      { text: 'sensor', met: true },
      { text: ', raised', met: false },
    ]);
  });
});

const { resolved } = demoBook({ proved: false });
const book = withTrueLanguages(resolved);
const map = mapSite(book, { drafts: false });

function searchOf(folder: string, language = 'en'): { search: Search; id: (place: number) => string; first: Search } {
  const home = map.homes.find((one) => one.folder === folder);
  if (!home) throw new Error(`No home ${folder}`);
  const files = buildSearch(home, book, voiceFor(language, 'en'));
  const main = indexFile(files.main);
  return {
    first: openSearch([main]),
    search: openSearch([main, indexFile(files.details)]),
    id: (place) => home.entries[place]?.id ?? '',
  };
}

describe('search on a home of the demo book', () => {
  const { search, first, id } = searchOf('tarn-40/row-12x20/');
  const best = (query: string): string => id(search(query)[0]?.procedure ?? -1);

  it('answers a misspelt question for a value with its limits, from the first file alone', () => {
    for (const one of [first, search]) {
      const [group] = one('senser voltage raised');
      expect(id(group?.procedure ?? -1)).toBe('learn-height-range');
      expect(group?.hits[0]?.line[0]).toBe('v');
      expect(group?.hits[0]?.line[4]).toBe('0.73 to 1.07\u00a0V');
      expect([...(group?.hits[0]?.met ?? [])]).toContain('raised');
    }
  });

  it('finds a procedure by its title, a part of it, its first letters, and with slips', () => {
    for (const query of [
      'learn the header height range',
      'height range',
      'lear',
      'lern hedder hight range',
      'Learn Range',
    ]) {
      expect([query, best(query)]).toEqual([query, 'learn-height-range']);
    }
    expect(best('width')).toBe('width-and-area');
    expect(best('mass flow')).toBe('mass-flow');
    expect(best('shut down')).toBe('shut-down');
  });

  it('finds by what is seen', () => {
    const groups = search('not stored no message')
      .slice(0, 2)
      .map(({ procedure }) => id(procedure));
    expect(groups).toContain('range-not-stored');
    expect(best('one side digs in')).toBe('one-side-digs-in');
  });

  it('finds by other words of the trade, in both languages', () => {
    // throat is never written; it is a feeder house, and so in Spanish
    const house = search('feeder house').map(({ procedure }) => procedure);
    expect(search('throat').map(({ procedure }) => procedure)).toEqual(house);
    expect(search('alimentador').map(({ procedure }) => procedure)).toEqual(house);
    expect(house.length).toBeGreaterThan(0);
  });

  it('puts what stands there exactly before what is nearly so', () => {
    const [group] = search('parking brake');
    expect(group?.hits[0]?.line[2].toLowerCase()).toContain('parking brake');
  });

  it('takes no code roughly', () => {
    expect(search('P-88888')).toEqual([]);
    expect(search('99.99')).toEqual([]);
  });

  it('finds nothing for nothing, and nothing in any rubbish', () => {
    expect(search('')).toEqual([]);
    expect(search('zzzzqqqq')).toEqual([]);
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (query) => {
        expect(search(query).length).toBeLessThanOrEqual(20);
      }),
      { numRuns: 50 },
    );
  });

  it('gives a hit a place to go to, below its procedure', () => {
    for (const { hits } of search('header')) {
      for (const { line } of hits) expect(line[3]).toMatch(/^(?:[\w.-]+\/)?(?:#[\w-]+)?$/);
    }
  });

  it('speaks Spanish on Spanish pages', () => {
    const spanish = searchOf('tarn-40/row-12x20/', 'es');
    const [group] = spanish.search('sensor arriba tension');
    expect(spanish.id(group?.procedure ?? -1)).toBe('learn-height-range');
    expect(group?.hits.some(({ line }) => line[4] === '0.73 a 1.07\u00a0V')).toBe(true);
    expect(spanish.id(spanish.search('aprender rango altura')[0]?.procedure ?? -1)).toBe('learn-height-range');
  });
});

describe('synonyms', () => {
  it('put the word of the book in the place of another, and keep the question as it was', () => {
    const [from, to] = [
      ['corn', 'head'],
      ['row', 'header'],
    ] as const;
    expect(
      rephrase(queryWords('couple corn heads'), [[from, to]]).map((phrase) => phrase.map(({ word }) => word)),
    ).toEqual([
      ['couple', 'corn', 'heads'],
      ['couple', 'row', 'header'],
    ]);
  });

  it('of the demo book lead from every other word, in any language, to the one of the page', () => {
    const { terms } = resolved.book;
    const synonyms = synonymsOf(terms, { language: 'en', first: 'en' }).map(
      ([from, to]) => `${from.join(' ')} > ${to.join(' ')}`,
    );
    expect(synonyms).toContain('corn head > row header');
    expect(synonyms).toContain('cabezal maicero > row header');
    expect(synonymsOf(terms, { language: 'es', first: 'en' }).map(([from]) => from.join(' '))).toContain('row header');
    expect(synonyms.some((line) => line.split(' > ')[0] === line.split(' > ')[1])).toBe(false);
  });
});

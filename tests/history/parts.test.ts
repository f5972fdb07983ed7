// The parts that a comparison is made of: what moved, texts that say numbers, words for every kind of change.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileBook } from '../../src/build.js';
import { cutSame } from '../../src/emit/changes/cut-same.js';
import { changeTables, isChangeKey } from '../../src/emit/words/changes.js';
import { safetyStatesOf, senseOf } from '../../src/history/condition-facts.js';
import { numbersIn, sayTheSame } from '../../src/history/number-texts.js';
import { movedBetween } from '../../src/history/order-of-steps.js';
import { procedureFacts } from '../../src/history/procedure-facts.js';
import { sharedFacts } from '../../src/history/shared-facts.js';
import type { Said } from '../../src/model/comparison.js';
import type { CompiledBook } from '../../src/model/compiled-book.js';
import { smallBook } from '../emit-pages/small-book.js';
import { compiledDemo, edited } from './books.js';

describe('what moved', () => {
  it('is one where one was taken to another place, and nothing where others came or went', () => {
    expect(movedBetween(['a', 'b', 'c', 'd'], ['a', 'c', 'd', 'b'])).toEqual(['b']);
    expect(movedBetween(['a', 'b', 'c'], ['x', 'a', 'c', 'y'])).toEqual([]);
  });

  it('leaves the rest in order, is never more than needed, and is the same from the other side', () => {
    const ids = ['a', 'b', 'c', 'd', 'e', 'f'];
    const order = fc.shuffledSubarray(ids, { minLength: 3 });
    fc.assert(
      fc.property(order, order, (before, after) => {
        const moved = movedBetween(before, after);
        const stays = (list: readonly string[]): readonly string[] =>
          list.filter((id) => before.includes(id) && after.includes(id) && !moved.includes(id));
        expect(stays(before)).toEqual(stays(after));
        expect([...movedBetween(after, before)].sort()).toEqual([...moved].sort());
        const both = after.filter((id) => before.includes(id));
        expect(both.length - moved.length).toBe(longestByTrying(before, both));
      }),
    );
  });

  /** The slow way: every choice of members. */
  function longestByTrying(before: readonly string[], both: readonly string[]): number {
    const places = both.map((id) => before.indexOf(id));
    const sizes = Array.from({ length: 2 ** places.length }, (_, bits) => {
      const chosen = places.filter((_place, i) => (bits >> i) & 1);
      return chosen.every((place, i) => i === 0 || place > (chosen[i - 1] ?? 0)) ? chosen.length : 0;
    });
    return Math.max(...sizes);
  }
});

describe('texts that say a number', () => {
  const pair = { before: '2 to 3\u00a0s', after: '2 to 4\u00a0s' };

  it('are the same where only that number changed, in every language', () => {
    expect(sayTheSame('Hold **KEY** for 2 to 3 s.', 'Hold **KEY** for 2 to 4 s.', [pair])).toBe(true);
    expect(sayTheSame('Pulse **KEY** de 2 a 3 s.', 'Pulse **KEY** de 2 a 4 s.', [pair])).toBe(true);
    const low = { before: 'at least 2.5 V', after: 'at least 2500 mV' };
    expect(sayTheSame('Espere al menos 2.5 V.', 'Espere al menos 2500 mV.', [low])).toBe(true);
  });

  it('differ where another number changed, or only one of two that say it', () => {
    expect(sayTheSame('Hold it for 12 to 3 s.', 'Hold it for 12 to 4 s.', [pair])).toBe(false);
    expect(sayTheSame('Hold 2 to 3 s, then 2 to 3 s.', 'Hold 2 to 4 s, then 2 to 3 s.', [pair])).toBe(false);
    expect(sayTheSame('Hold it for 2 to 3 s.', 'Hold it for 2 to 5 s.', [pair])).toBe(false);
    expect(sayTheSame('Hold it for 2 to 3 s.', 'Press it for 2 to 4 s.', [pair])).toBe(false);
  });

  it('have their numbers compared whatever the sign of decimals', () => {
    expect(numbersIn('3,5 m and 12 s')).toEqual(['3.5', '12']);
  });
});

describe('the words for changes', () => {
  it('are there in every language, with the same places', () => {
    const places = (text: string): readonly string[] => (text.match(/\{\w+\}/g) ?? []).sort();
    const [english, spanish]: readonly Readonly<Record<string, string>>[] = [changeTables.en, changeTables.es];
    expect(Object.keys(spanish ?? {})).toEqual(Object.keys(english ?? {}));
    for (const [key, text] of Object.entries(english ?? {})) {
      expect([key, places(spanish?.[key] ?? '')]).toEqual([key, places(text)]);
    }
  });

  it('know every kind of fact that a book can have', () => {
    const small = smallBook();
    const books = [compiledDemo(), edited(), compileBook(small.resolved, small.figures)];
    const used = books.flatMap(keysOf);
    expect(used.length).toBeGreaterThan(5000);
    expect([...new Set(used)].filter((key) => !['is', 'either', 'run'].includes(key) && !isChangeKey(key))).toEqual([]);
  });
});

function keysOf(book: CompiledBook): readonly string[] {
  const sense = senseOf(book, new Set(safetyStatesOf(book)));
  const sheets = [sharedFacts(book, sense), ...book.variants.map(({ procedure }) => procedureFacts(procedure, sense))];
  return sheets.flatMap(({ facts }) =>
    [...facts.values()].flatMap(({ about, subject, said }) => [
      about,
      ...(subject ? [`subject-${subject.kind}`] : []),
      ...(said ? keysOfSaid(said) : []),
    ]),
  );
}

function keysOfSaid(said: Said): readonly string[] {
  if (said.kind === 'list') return said.of.flatMap(keysOfSaid);
  return said.kind === 'ui' ? [said.key, ...Object.values(said.parts ?? {}).flatMap(keysOfSaid)] : [];
}

describe('long texts', () => {
  it('are cut to where they differ, with some words around it', () => {
    const words = Array.from({ length: 60 }, (_, i) => `word${i}`);
    const after = words.map((word, i) => (i === 30 ? 'other' : word));
    const cut = cutSame(words.join(' '), after.join(' '));
    expect(cut.before).toBe(
      '… word24 word25 word26 word27 word28 word29 word30 word31 word32 word33 word34 word35 word36 …',
    );
    expect(cut.after).toContain('word29 other word31');
    expect(cutSame('short', 'text')).toEqual({ before: 'short', after: 'text' });
  });
});

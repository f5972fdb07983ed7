import { describe, expect, it } from 'vitest';
import { rigLabel } from '../../src/model/rig.js';
import { emptyMemo, exploreRigs, recall } from '../../src/resolve/explore.js';
import { type Ask, anyRig, completeRigs, type PartialRig } from '../../src/resolve/facets.js';
import { smallBook } from './small-book.js';

const book = smallBook(
  {
    'tarn-60': { headers: ['row-12x20', 'platform-30'], standard: ['ride-damping'] },
    'tarn-40': {
      headers: ['row-12x20', 'platform-30', 'row-6x30'],
      optional: Array.from({ length: 30 }, (_, i) => `option-${i}`),
      serials: ['70-00100', '70-04999'],
      software: { display: ['3.10', '4.2', '5.0'] },
    },
  },
  { 'row-12x20': 'row', 'row-6x30': 'row', 'platform-30': 'platform' },
);

const start = anyRig(book);
const labels = (rig: PartialRig): readonly string[] => completeRigs(rig).map(rigLabel);
const leavesOf = (run: (ask: Ask) => unknown, most = 100): readonly (readonly string[])[] =>
  exploreRigs(book, { start, most }, run).leaves.map(({ rig }) => labels(rig));

describe('exploreRigs', () => {
  it('has one leaf of all rigs where nothing is asked', () => {
    expect(leavesOf(() => 1)).toEqual([
      ['tarn-40+row-12x20', 'tarn-40+platform-30', 'tarn-40+row-6x30', 'tarn-60+row-12x20', 'tarn-60+platform-30'],
    ]);
  });

  it('splits by header type without telling headers of one type apart', () => {
    expect(leavesOf((ask) => ask({ about: 'header-type' }))).toEqual([
      ['tarn-40+row-12x20', 'tarn-40+row-6x30', 'tarn-60+row-12x20'],
      ['tarn-40+platform-30', 'tarn-60+platform-30'],
    ]);
  });

  it('gives four leaves for two of thirty options', () => {
    const found = leavesOf((ask) => {
      if (ask({ about: 'machine' }) !== 'tarn-40') return;
      ask({ about: 'option', option: 'option-7' });
      ask({ about: 'option', option: 'option-21' });
    });
    expect(found.map(([first]) => first)).toEqual([
      'tarn-40+row-12x20+option-21+option-7',
      'tarn-40+row-12x20+option-7~option-21',
      'tarn-40+row-12x20+option-21~option-7',
      'tarn-40+row-12x20~option-21~option-7',
      'tarn-60+row-12x20',
    ]);
  });

  it('asks a second option only where the first one is fitted', () => {
    const found = leavesOf((ask) => {
      if (ask({ about: 'machine' }) !== 'tarn-40') return;
      if (ask({ about: 'option', option: 'option-0' })) ask({ about: 'option', option: 'option-1' });
    });
    expect(found).toHaveLength(4);
  });

  it('never splits by an option that is standard or that the machine has not', () => {
    const found = leavesOf((ask) => {
      if (ask({ about: 'machine' }) === 'tarn-60') {
        expect(ask({ about: 'option', option: 'ride-damping' })).toBe(true);
        expect(ask({ about: 'option', option: 'option-0' })).toBe(false);
      }
    });
    expect(found).toHaveLength(2);
  });

  it('splits serials at each end that is named, once', () => {
    const found = leavesOf((ask) => {
      if (ask({ about: 'machine' }) !== 'tarn-40') return;
      ask({ about: 'serial', cut: { serial: '70-00300', side: 'before' } });
      ask({ about: 'serial', cut: { serial: '70-00300', side: 'before' } });
      ask({ about: 'serial', cut: { serial: '70-00099', side: 'before' } });
    });
    expect(found.map(([first]) => first)).toEqual([
      'tarn-40+row-12x20#70-00100..(70-00300)',
      'tarn-40+row-12x20#70-00300..70-04999',
      'tarn-60+row-12x20',
    ]);
  });

  it('splits software into the versions asked for and the others', () => {
    const found = leavesOf((ask) => {
      if (ask({ about: 'machine' }) !== 'tarn-40') return;
      ask({ about: 'software', module: 'display', versions: ['4.2', '5.0'] });
    });
    expect(found.map(([first]) => first)).toEqual([
      'tarn-40+row-12x20@3.10',
      'tarn-40+row-12x20@4.2|5.0',
      'tarn-60+row-12x20',
    ]);
  });

  it('stops at the bound and says so', () => {
    const result = exploreRigs(book, { start, most: 2 }, (ask) => ask({ about: 'header' }));
    expect(result.leaves).toHaveLength(2);
    expect(result.complete).toBe(false);
  });
});

describe('recall', () => {
  it('runs once for each way in which the answers fall, and asks what decides it every time', () => {
    let runs = 0;
    const memo = emptyMemo<string>();
    const work = (ask: Ask): string => {
      runs += 1;
      return ask({ about: 'header-type' }) === 'row' ? `row on ${ask({ about: 'machine' })}` : 'no row';
    };
    const leaves = exploreRigs(book, { start, most: 100 }, (ask) => [
      ask({ about: 'header' }),
      recall(memo, ask, work),
    ]).leaves;
    expect(leaves.map(({ value }) => value)).toEqual([
      ['row-12x20', 'row on tarn-40'],
      ['row-12x20', 'row on tarn-60'],
      ['platform-30', 'no row'],
      ['row-6x30', 'row on tarn-40'],
    ]);
    expect(runs).toBe(3);
  });
});

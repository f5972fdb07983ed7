import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rigLabel } from '../../src/model/rig.js';
import { mergeRigs } from '../../src/model/rig-lists.js';
import { exploreRigs } from '../../src/resolve/explore.js';
import { type Ask, anyRig, completeRigs } from '../../src/resolve/facets.js';
import { readRig } from '../../src/resolve/rig-text.js';
import { smallBook } from './small-book.js';

const book = smallBook(
  {
    'tarn-40': {
      headers: ['row-12x20', 'platform-30'],
      optional: ['lateral-tilt', 'ride-damping'],
      standard: ['camera'],
      serials: ['70-00100', '70-04999'],
      software: { display: ['3.10', '4.2', '5.0'] },
    },
    'corrie-9': { headers: ['row-12x20'] },
  },
  { 'row-12x20': 'row', 'platform-30': 'platform' },
);
const tarn = { ...anyRig(book), pairs: [{ machine: 'tarn-40', header: 'row-12x20' }] };

/** Every rig that answers these questions in one way or another. */
function rigsOf(run: (ask: Ask) => void): ReturnType<typeof completeRigs> {
  return exploreRigs(book, { start: tarn, most: 100 }, run).leaves.flatMap(({ rig }) => completeRigs(rig));
}

const serial = (at: string) => ({ about: 'serial', cut: { serial: at, side: 'before' } }) as const;
const version = (...versions: string[]) => ({ about: 'software', module: 'display', versions }) as const;
const option = (id: string) => ({ about: 'option', option: id }) as const;

describe('mergeRigs', () => {
  it('leaves out what makes no difference', () => {
    const rigs = rigsOf((ask) => {
      ask(option('lateral-tilt'));
      ask(serial('70-00300'));
      ask(serial('70-01000'));
      ask(version('4.2'));
      ask(option('ride-damping'));
    });
    expect(rigs.length).toBe(2 * 3 * 2 * 2);
    expect(mergeRigs(book, rigs).map(rigLabel)).toEqual(['tarn-40+row-12x20']);
  });

  it('keeps the one that makes a difference', () => {
    const rigs = rigsOf((ask) => {
      ask(option('lateral-tilt'));
      ask(serial('70-00300'));
    }).filter((rig) => rig.options.get('lateral-tilt'));
    expect(mergeRigs(book, rigs).map(rigLabel)).toEqual(['tarn-40+row-12x20+lateral-tilt']);
  });

  it('joins stretches that touch and no others', () => {
    const rigs = rigsOf((ask) => {
      ask(serial('70-00300'));
      ask(serial('70-01000'));
      ask(serial('70-02000'));
    });
    const [first, second, , last] = mergeOrder(rigs);
    expect(mergeRigs(book, [first, second, last]).map(rigLabel)).toEqual([
      'tarn-40+row-12x20#70-00100..(70-01000)',
      'tarn-40+row-12x20#70-02000..70-04999',
    ]);
  });

  it('joins versions in the order of the list', () => {
    const rigs = rigsOf((ask) => {
      ask(version('3.10'));
      ask(version('4.2'));
    });
    const some = rigs.filter((rig) => !rig.software.get('display')?.includes('4.2'));
    expect(mergeRigs(book, some).map(rigLabel)).toEqual(['tarn-40+row-12x20@3.10|5.0']);
  });

  it('does not depend on the order of the rigs', () => {
    const rigs = rigsOf((ask) => {
      if (ask(option('lateral-tilt'))) ask(serial('70-00300'));
      ask(version('4.2', '5.0'));
    });
    fc.assert(
      fc.property(fc.shuffledSubarray([...rigs]), (some) => {
        expect(mergeRigs(book, some).map(rigLabel)).toEqual(mergeRigs(book, [...some].reverse()).map(rigLabel));
      }),
    );
  });
});

function mergeOrder<T extends { readonly serials?: { readonly from?: { readonly serial: string } } }>(
  rigs: readonly T[],
): readonly [T, T, T, T] {
  const start = ({ serials }: T): string => serials?.from?.serial ?? '';
  return [...rigs].sort((a, b) => (start(a) < start(b) ? -1 : 1)) as unknown as readonly [T, T, T, T];
}

describe('readRig', () => {
  it.each([
    ['tarn-40', ['tarn-40+row-12x20', 'tarn-40+platform-30']],
    ['tarn-40+row-12x20', ['tarn-40+row-12x20']],
    ['tarn-40+lateral-tilt+row-12x20~ride-damping', ['tarn-40+row-12x20+lateral-tilt~ride-damping']],
    ['tarn-40+row-12x20@4.2#70-00317', ['tarn-40+row-12x20@4.2#70-00317..70-00317']],
    ['tarn-40+row-12x20@4.2|5.0', ['tarn-40+row-12x20@4.2|5.0']],
    ['tarn-40+row-12x20#70-00300..', ['tarn-40+row-12x20#70-00300..70-04999']],
    ['tarn-40+row-12x20#..(70-00300)', ['tarn-40+row-12x20#70-00100..(70-00300)']],
    ['tarn-40+row-12x20+camera', ['tarn-40+row-12x20']],
  ])('%s', (text, labels) => {
    const read = readRig(book, text);
    expect(read.ok && completeRigs(read.rig).map(rigLabel)).toEqual(labels);
  });

  it.each([
    ['trn-40', '`trn-40` in the rig `trn-40` is no machine of the book', 'Did you mean `tarn-40`?'],
    ['', '`` in the rig `` is no machine of the book', 'Write `corrie-9` or `tarn-40`.'],
    [
      'tarn-40+row-12x2',
      '`row-12x2` in the rig `tarn-40+row-12x2` is no header or option of `tarn-40`',
      'Did you mean `row-12x20`?',
    ],
    [
      'corrie-9+platform-30',
      '`platform-30` in the rig `corrie-9+platform-30` is no header or option of `corrie-9`',
      'Write `row-12x20`.',
    ],
    [
      'tarn-40~camera',
      '`camera` in the rig `tarn-40~camera` is no option of `tarn-40` that it may be without',
      'Write `lateral-tilt` or `ride-damping`.',
    ],
    ['tarn-40@4.3', '`4.3` in the rig `tarn-40@4.3` is no software version of `tarn-40`', 'Did you mean `4.2`?'],
    [
      'tarn-40#80-1',
      '`80-1` in the rig `tarn-40#80-1` is no serial of `tarn-40`',
      'Its serials run from `70-00100` to `70-04999`.',
    ],
  ])('refuses %j', (text, message, help) => {
    expect(readRig(book, text)).toEqual({ ok: false, message, help });
  });
});

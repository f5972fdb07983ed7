// All bare-interval vectors of the ITF1788 collection (M. Nehmeier, M. Kiesner, O. Heimlich; github:oheim/ITF1788, the
// Apache-2.0 and all-permissive files) for the operations that are here: containment for all of them, and the tight
// enclosure wherever IEEE Std 1788-2015 or our own doc comment promises it. Read from the folder OUTSIDE_VALUES.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as arithmetic from '../../../src/calc/interval/arithmetic.js';
import * as elementary from '../../../src/calc/interval/elementary.js';
import * as sets from '../../../src/calc/interval/interval.js';
import { EMPTY, type Interval, isEmpty, isSubset } from '../../../src/calc/interval/interval.js';
import * as powers from '../../../src/calc/interval/powers.js';
import { nextUp } from '../../../src/calc/interval/rounding.js';
import { note, outsideFolder } from './record.js';

type Written = 'empty' | number | string | boolean | readonly [number | string, number | string];
type Vector = readonly (Written | { readonly accurate: unknown })[];

const intervalOperations: Readonly<Record<string, (...x: Interval[]) => Interval>> = {
  add: arithmetic.add,
  sub: arithmetic.sub,
  neg: arithmetic.neg,
  mul: arithmetic.mul,
  div: arithmetic.div,
  recip: arithmetic.recip,
  sqr: arithmetic.sqr,
  sqrt: arithmetic.sqrt,
  abs: arithmetic.abs,
  min: arithmetic.min,
  max: arithmetic.max,
  sign: arithmetic.sign,
  floor: arithmetic.floor,
  ceil: arithmetic.ceil,
  trunc: arithmetic.trunc,
  intersection: sets.intersection,
  convexHull: sets.hull,
  exp: elementary.exp,
  log: elementary.log,
  sin: elementary.sin,
  cos: elementary.cos,
  tan: elementary.tan,
  asin: elementary.asin,
  acos: elementary.acos,
  atan: elementary.atan,
  atan2: elementary.atan2,
  pow: powers.pow,
};

const tests: Readonly<Record<string, (...x: Interval[]) => boolean>> = {
  isEmpty: sets.isEmpty,
  isEntire: sets.isEntire,
  isCommonInterval: sets.isBounded,
  isSingleton: sets.isSingle,
  equal: sets.isEqual,
  subset: sets.isSubset,
  interior: sets.isInterior,
  disjoint: sets.isDisjoint,
};

const measures: Readonly<Record<string, (x: Interval) => number>> = {
  inf: (x) => x.low,
  sup: (x) => x.high,
  wid: sets.width,
  mid: sets.mid,
  mag: sets.magnitude,
  mig: sets.mignitude,
};

function number(written: Written): number {
  if (written === 'inf') return Infinity;
  return written === '-inf' ? -Infinity : Number(written);
}

function read(written: Written): Interval {
  if (written === 'empty') return EMPTY;
  const [low, high] = written as readonly [number | string, number | string];
  return { low: number(low), high: number(high) };
}

/** Floats between the two, at the worse end. */
function ulps(wide: Interval, tight: Interval): number {
  if (isEmpty(wide)) return 0;
  let steps = 0;
  for (let low = wide.low; low < tight.low && steps < 1000; steps += 1) low = nextUp(low);
  let upper = 0;
  for (let high = tight.high; high < wide.high && upper < 1000; upper += 1) high = nextUp(high);
  return Math.max(steps, upper);
}

const folder = outsideFolder();

if (folder === undefined) {
  test.skip('ITF1788: OUTSIDE_VALUES is unset, its vectors were not run', () => {});
} else {
  const { vectors } = JSON.parse(readFileSync(join(folder, 'itf1788.json'), 'utf8')) as {
    vectors: Readonly<Record<string, readonly Vector[]>>;
  };
  const of = (operation: string) => {
    const found = vectors[operation];
    if (found === undefined || found.length === 0) throw new Error(`No vectors for ${operation}`);
    return found;
  };

  describe('ITF1788: operations with an interval as result', () => {
    const pown = (x: Interval, n: Interval) => powers.pown(x, n.low);
    const all: Readonly<Record<string, (...x: Interval[]) => Interval>> = {
      ...intervalOperations,
      pown: pown as (...x: Interval[]) => Interval,
    };
    for (const [operation, run] of Object.entries(all)) {
      test(operation, () => {
        for (const vector of of(operation)) {
          const operands = vector.slice(0, run === all.pown ? 2 : run.length || 1) as Written[];
          const expected = read(vector[operands.length] as Written);
          const result = run(...operands.map((o) => (typeof o === 'number' ? { low: o, high: o } : read(o))));
          const shown = `${operation} ${JSON.stringify(operands)} gave ${result.low} to ${result.high}, tight is ${expected.low} to ${expected.high}`;
          expect(Number.isNaN(result.low) || Number.isNaN(result.high), shown).toBe(false);
          expect(isSubset(expected, result), shown).toBe(true);
          expect(isSubset(result, expected), shown).toBe(true);
          note({ of: run.name, against: 'ITF1788', deviation: ulps(result, expected), unit: 'ulp' });
        }
      });
    }
  });

  describe('ITF1788: yes or no', () => {
    for (const [operation, run] of Object.entries(tests)) {
      test(operation, () => {
        for (const vector of of(operation)) {
          const operands = vector.slice(0, -1) as Written[];
          expect(run(...operands.map(read)), `${operation} ${JSON.stringify(operands)}`).toBe(vector.at(-1));
          note({ of: run.name, against: 'ITF1788', deviation: 0, unit: 'exact' });
        }
      });
    }
    test('isMember', () => {
      for (const [value, set, expected] of of('isMember')) {
        expect(sets.contains(read(set as Written), number(value as Written)), `${value} in ${set}`).toBe(expected);
        note({ of: 'contains', against: 'ITF1788', deviation: 0, unit: 'exact' });
      }
    });
  });

  describe('ITF1788: numbers', () => {
    for (const [operation, run] of Object.entries(measures)) {
      test(operation, () => {
        for (const [set, expected] of of(operation)) {
          const x = read(set as Written);
          // Where the collection has no number (NaN), ours is a stated one or a thrown RangeError.
          if (expected === 'nan') {
            if (operation === 'mid') expect(() => run(x)).toThrow(RangeError);
            else expect(run(x)).toBe(0);
            continue;
          }
          expect(run(x) + 0, `${operation} ${set}`).toBe(number(expected as Written) + 0);
          if (run.name !== 'inf' && run.name !== 'sup')
            note({ of: run.name, against: 'ITF1788', deviation: 0, unit: 'exact' });
        }
      });
    }
    test('numsToInterval', () => {
      for (const [low, high, expected] of of('b-numsToInterval')) {
        const make = () => sets.interval(number(low as Written), number(high as Written));
        if (expected === 'empty') expect(make).toThrow(RangeError);
        else expect(make()).toEqual(read(expected as Written));
        note({ of: 'interval', against: 'ITF1788', deviation: 0, unit: 'exact' });
      }
    });
  });
}

// Interval arithmetic: worked examples with their sources, and inclusion over random boxes.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  abs,
  add,
  ceil,
  div,
  floor,
  max,
  min,
  mul,
  neg,
  recip,
  sign,
  sqr,
  sqrt,
  sub,
  trunc,
} from '../../../src/calc/interval/arithmetic.js';
import {
  contains,
  EMPTY,
  ENTIRE,
  hull,
  type Interval,
  intersection,
  interval,
  isDisjoint,
  isEmpty,
  isInterior,
  isSubset,
  magnitude,
  mid,
  mignitude,
  point,
  width,
} from '../../../src/calc/interval/interval.js';
import { pow, pown } from '../../../src/calc/interval/powers.js';
import { expectSame } from '../outside/record.js';
import { anyFloat, compare, compareEnd, type Fraction, fraction, minus, over, plus, settings, times } from './exact.js';

const ends = (x: Interval) => [x.low, x.high];

describe('published examples', () => {
  // R. E. Moore, R. B. Kearfott, M. J. Cloud, Introduction to Interval Analysis, SIAM 2009, ch. 2-5 (from memory).
  test('a variable that occurs twice is forgotten by mul and sub, not by sqr', () => {
    const x = interval(-1, 2);
    expectSame(ends(sub(interval(1, 2), interval(1, 2))), [-1, 1], {
      of: 'sub',
      against: 'Moore, Kearfott, Cloud 2009',
    });
    expectSame(ends(mul(x, x)), [-2, 4], { of: 'mul', against: 'Moore, Kearfott, Cloud 2009' });
    expectSame(ends(sqr(x)), [0, 4], { of: 'sqr', against: 'Moore, Kearfott, Cloud 2009' });
  });

  // ITF1788 (M. Nehmeier, M. Kiesner, O. Heimlich), libieeep1788 vectors.
  test('roots, powers, middles and members at the edges', () => {
    const claim = { against: 'ITF1788 (selection)' };
    expectSame(ends(sqrt(interval(-1, 1))), [0, 1], { of: 'sqrt', ...claim });
    expectSame(mid(ENTIRE), 0, { of: 'mid', ...claim });
    expectSame(mignitude(interval(-4, 2)), 0, { of: 'mignitude', ...claim });
    expectSame(mignitude(interval(-4, -2)), 2, { of: 'mignitude', ...claim });
    expectSame(ends(pown(ENTIRE, 0)), [1, 1], { of: 'pown', ...claim });
    expectSame(contains(ENTIRE, Infinity), false, { of: 'contains', ...claim });
    expectSame(ends(mul(point(0), ENTIRE)), [0, 0], { of: 'mul', ...claim });
  });

  // IEEE 754 arithmetic: the exact sum of the floats 0.1 and 0.2 is 0.3000000000000000166...
  test('0.1 + 0.2 lies between two neighbouring floats; 1 + 2 is exact', () => {
    expectSame(ends(add(point(0.1), point(0.2))), [0.3, 0.30000000000000004], { of: 'add', against: 'IEEE 754' });
    expectSame(ends(add(point(1), point(2))), [3, 3], { of: 'add', against: 'IEEE 754' });
  });

  // IEEE Std 1788-2015, 10.5.3 and table 9.1 (from memory).
  test('division by an interval that holds zero', () => {
    const claim = { of: 'div', against: 'IEEE 1788-2015 (from memory)' };
    expectSame(div(point(1), interval(-1, 1)), ENTIRE, claim);
    expectSame(ends(div(point(1), interval(0, 2))), [0.5, Infinity], claim);
    expectSame(ends(div(point(-1), interval(0, 2))), [-Infinity, -0.5], claim);
    expectSame(div(point(1), point(0)), EMPTY, claim);
    expectSame(div(point(0), point(0)), EMPTY, claim);
    expectSame(ends(div(point(0), interval(0, 1))), [0, 0], claim);
    expectSame(recip(interval(-1, 1)), ENTIRE, claim);
  });

  // Found in a library that we did not take: odd powers of intervals that hold zero excluded the true value.
  test('odd powers over zero hold both cubes', () => {
    expect(ends(pown(interval(-2, 3), 3))).toEqual([-8, 27]);
    expect(ends(pown(interval(-2, 3), 2))).toEqual([0, 9]);
    expect(pown(interval(-2, 3), -1)).toEqual(ENTIRE);
  });
});

describe('the empty set', () => {
  test('every operation with it is empty', () => {
    const one = point(1);
    for (const run of [add, sub, mul, div, min, max, pow]) {
      expect(run(EMPTY, one)).toEqual(EMPTY);
      expect(run(one, EMPTY)).toEqual(EMPTY);
    }
    for (const run of [neg, recip, sqr, sqrt, abs, sign, floor, ceil, trunc]) expect(run(EMPTY)).toEqual(EMPTY);
    expect(pown(EMPTY, 2)).toEqual(EMPTY);
    expect(hull(EMPTY, one)).toEqual(one);
    expect(isSubset(EMPTY, EMPTY)).toBe(true);
    expect(isInterior(one, EMPTY)).toBe(false);
    expect(isDisjoint(EMPTY, EMPTY)).toBe(true);
    expect([width(EMPTY), magnitude(EMPTY), mignitude(EMPTY)]).toEqual([0, 0, 0]);
    expect(() => mid(EMPTY)).toThrow(RangeError);
  });

  test('what bounds no number is refused', () => {
    for (const [low, high] of [
      [2, 1],
      [Number.NaN, 1],
      [0, Number.NaN],
      [Infinity, Infinity],
      [-Infinity, -Infinity],
    ] as const)
      expect(() => interval(low, high)).toThrow(RangeError);
    expect(() => pown(point(2), 0.5)).toThrow(RangeError);
  });
});

/** A box with a member of it; unbounded now and then. */
const boxWithMember = fc
  .tuple(anyFloat, anyFloat, anyFloat, fc.constantFrom(0, 0, 0, 0, 1, 2, 3))
  .map(([a, b, c, open]) => {
    const [low, member, high] = [a, b, c].sort((p, q) => p - q) as [number, number, number];
    return { box: { low: open & 1 ? -Infinity : low, high: open & 2 ? Infinity : high }, member };
  });

function expectInside(exact: Fraction, box: Interval): void {
  expect(Number.isNaN(box.low) || Number.isNaN(box.high)).toBe(false);
  expect(compareEnd(exact, box.low)).toBeGreaterThanOrEqual(0);
  expect(compareEnd(exact, box.high)).toBeLessThanOrEqual(0);
}

describe('inclusion: the result for members is in the result for boxes', () => {
  test('add, sub, mul, div', () => {
    fc.assert(
      fc.property(boxWithMember, boxWithMember, (x, y) => {
        const [a, b] = [fraction(x.member), fraction(y.member)];
        expectInside(plus(a, b), add(x.box, y.box));
        expectInside(minus(a, b), sub(x.box, y.box));
        expectInside(times(a, b), mul(x.box, y.box));
        if (y.member !== 0) expectInside(over(a, b), div(x.box, y.box));
      }),
      settings,
    );
  });

  test('sqr, abs, sqrt, pown', () => {
    fc.assert(
      fc.property(boxWithMember, fc.integer({ min: -5, max: 7 }), (x, n) => {
        const a = fraction(x.member);
        expectInside(times(a, a), sqr(x.box));
        expectInside(fraction(Math.abs(x.member)), abs(x.box));
        if (n >= 0 || x.member !== 0) {
          const power = { top: a.top ** BigInt(Math.abs(n)), bottom: a.bottom ** BigInt(Math.abs(n)) };
          expectInside(n >= 0 ? power : over({ top: 1n, bottom: 1n }, power), pown(x.box, n));
        }
        if (x.member >= 0) {
          const root = sqrt(x.box);
          expect(
            compareEnd(a, root.high) <= 0 || compare(a, times(fraction(root.high), fraction(root.high))) <= 0,
          ).toBe(true);
          expect(compare(a, times(fraction(root.low), fraction(root.low)))).toBeGreaterThanOrEqual(0);
        }
      }),
      settings,
    );
  });

  test('a smaller box never gives a larger result', () => {
    fc.assert(
      fc.property(boxWithMember, boxWithMember, boxWithMember, (x, y, z) => {
        const part = intersection(x.box, z.box);
        fc.pre(!isEmpty(part));
        for (const run of [add, sub, mul, div, min, max])
          expect(isSubset(run(part, y.box), run(x.box, y.box))).toBe(true);
        for (const run of [sqr, sqrt, abs, recip, sign, floor]) expect(isSubset(run(part), run(x.box))).toBe(true);
      }),
      settings,
    );
  });

  test('the middle is a member', () => {
    fc.assert(
      fc.property(boxWithMember, (x) => contains(x.box, mid(x.box))),
      settings,
    );
  });
});

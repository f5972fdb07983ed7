// The two ways of enclosing a value against each other: floats rounded outward and fractions of any length know the same
// number, so that what each allows must overlap, and where fractions are exact the float ends must lie about them.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fractionalPower, root } from '../../../src/calc/elementary.js';
import { add, div, mul, sqrt, sub } from '../../../src/calc/interval/arithmetic.js';
import { type Interval, point } from '../../../src/calc/interval/interval.js';
import { pow } from '../../../src/calc/interval/powers.js';
import type { Enclosure } from '../../../src/calc/rational.js';
import * as fractions from '../../../src/calc/rational.js';
import { settings } from './exact.js';

const finite = fc.double({ min: -1e100, max: 1e100, noNaN: true }).map((x) => x + 0);
const positive = fc.double({ min: 1e-100, max: 1e100, noNaN: true });

function overlap(floats: Interval, exact: Enclosure): boolean {
  const { compare, fromNumber } = fractions;
  const below = floats.low === -Infinity || compare(fromNumber(floats.low), exact.high) <= 0;
  return below && (floats.high === Infinity || compare(exact.low, fromNumber(floats.high)) <= 0);
}

const known = (value: fractions.Rational): Enclosure => ({ low: value, high: value });

test('sums, differences, products and quotients', () => {
  fc.assert(
    fc.property(finite, finite, (a, b) => {
      const [x, y] = [fractions.fromNumber(a), fractions.fromNumber(b)];
      expect(overlap(add(point(a), point(b)), known(fractions.add(x, y)))).toBe(true);
      expect(overlap(sub(point(a), point(b)), known(fractions.subtract(x, y)))).toBe(true);
      expect(overlap(mul(point(a), point(b)), known(fractions.multiply(x, y)))).toBe(true);
      if (b !== 0) expect(overlap(div(point(a), point(b)), known(fractions.divide(x, y)))).toBe(true);
    }),
    settings,
  );
});

test('roots and powers', () => {
  fc.assert(
    fc.property(positive, fc.integer({ min: -12, max: 12 }), (a, eighths) => {
      const x = fractions.fromNumber(a);
      expect(overlap(sqrt(point(a)), root(x))).toBe(true);
      const exponent = eighths / 8;
      expect(overlap(pow(point(a), point(exponent)), fractionalPower(x, fractions.fromNumber(exponent)))).toBe(true);
    }),
    settings,
  );
});

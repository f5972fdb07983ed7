// What a capability index or a counted share may be, from few readings: printed tables, closed forms, and chance itself as
// the second method.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { actualBounds, capability, potentialBounds } from '../../../src/calc/statistics/capability.js';
import { chiSquareAbove, chiSquareQuantile } from '../../../src/calc/statistics/chi-square.js';
import { normalQuantile, normalShare } from '../../../src/calc/statistics/normal.js';
import { testNormality } from '../../../src/calc/statistics/normality.js';
import { shareBounds } from '../../../src/calc/statistics/share-bounds.js';
import { summarise } from '../../../src/calc/statistics/summary.js';
import { settings } from '../interval/exact.js';
import { expectAbsolute, expectPrinted, expectRelative } from '../outside/record.js';

/** Numbers from 0 to 1 that look random and are the same each time (multiplier of Park and Miller 1988). */
function* uniform(seed: number): Generator<number, never> {
  for (let state = seed; ; ) {
    state = (state * 48271) % 2147483647;
    yield state / 2147483647;
  }
}

/** Samples of a normal distribution with mean 0 and deviation 1. */
function samples(count: number, size: number): readonly (readonly number[])[] {
  const numbers = uniform(20260907);
  return Array.from({ length: count }, () => Array.from({ length: size }, () => normalQuantile(numbers.next().value)));
}

describe('chi-square', () => {
  // NIST e-Handbook of Statistical Methods, 1.3.6.7.4 (from memory).
  test('critical values', () => {
    const claim = { of: 'chiSquareQuantile', against: 'NIST e-Handbook 1.3.6.7.4 (from memory)' };
    for (const [above, degrees, printed] of [
      [0.1, 1, '2.706'],
      [0.05, 1, '3.841'],
      [0.001, 1, '10.828'],
      [0.05, 2, '5.991'],
      [0.05, 10, '18.307'],
      [0.025, 10, '20.483'],
      [0.001, 10, '29.588'],
      [0.975, 10, '3.247'],
      [0.95, 10, '3.940'],
      [0.05, 100, '124.342'],
      [0.025, 100, '129.561'],
      [0.975, 100, '74.222'],
    ] as const) {
      expectPrinted(chiSquareQuantile(above, degrees), printed, claim);
    }
  });

  test('the share is the integral of the density', () => {
    for (const [x, degrees] of [
      [0.3, 2],
      [4, 3],
      [9, 6],
      [20, 15],
      [31, 30],
    ] as const) {
      // over the root of x, where it is smooth; one integral over the other, so that no gamma function is needed
      const density = (u: number): number => u ** (degrees - 1) * Math.exp((-u * u) / 2);
      const integral = (from: number, to: number): number => {
        const count = 40000;
        const h = (to - from) / count;
        let sum = 0;
        for (let i = 0; i <= count; i += 1)
          sum += density(from + i * h) * (i === 0 || i === count ? 1 : i % 2 === 1 ? 4 : 2);
        return (sum * h) / 3;
      };
      expectRelative(chiSquareAbove(x, degrees), integral(Math.sqrt(x), 30) / integral(0, 30), 1e-10, {
        of: 'chiSquareAbove',
        against: "Simpson's rule",
      });
    }
  });

  test('both ways, falling, and refused outside', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), fc.integer({ min: 1, max: 3000 }), (p, n) => {
        const x = chiSquareQuantile(p, n);
        expect(Math.abs(chiSquareAbove(x, n) - p)).toBeLessThan(1e-9);
        expect(chiSquareAbove(x * 1.01, n)).toBeLessThan(chiSquareAbove(x, n));
      }),
      { ...settings, numRuns: 100 },
    );
    expect([chiSquareAbove(0, 3), chiSquareAbove(Infinity, 3)]).toEqual([1, 0]);
    for (const [x, n] of [
      [-1, 2],
      [1, 0],
      [1, 1.5],
      [Number.NaN, 2],
    ] as const)
      expect(() => chiSquareAbove(x, n)).toThrow(RangeError);
    for (const p of [0, 1, Number.NaN]) expect(() => chiSquareQuantile(p, 5)).toThrow(RangeError);
  });
});

describe('a counted share', () => {
  // NIST e-Handbook of Statistical Methods, 7.2.4.1: 4 of 20 at 90 % (from memory).
  test('the published example', () => {
    const claim = { of: 'shareBounds', against: 'NIST e-Handbook 7.2.4.1 (from memory)' };
    const found = shareBounds(4, 20, 0.9);
    expectPrinted(found.low, '0.07135', claim);
    expectPrinted(found.high, '0.40103', claim);
  });

  test('none and all have bounds in closed form', () => {
    for (const n of [1, 5, 30, 400]) {
      const claim = { of: 'shareBounds', against: 'closed form for none and all' };
      expect(shareBounds(0, n, 0.95).low).toBe(0);
      expect(shareBounds(n, n, 0.95).high).toBe(1);
      expectAbsolute(shareBounds(0, n, 0.95).high, 1 - 0.025 ** (1 / n), 1e-12, claim);
      expectAbsolute(shareBounds(n, n, 0.95).low, 0.025 ** (1 / n), 1e-12, claim);
    }
  });

  test('the bounds are where the binomial sum, added up from the other end, leaves half of what the level leaves', () => {
    const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);
    const atLeast = (k: number, n: number, p: number): number => {
      let sum = 0;
      for (let i = n; i >= k; i -= 1) sum += choose(n, i) * p ** i * (1 - p) ** (n - i);
      return sum;
    };
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.nat(),
        fc.constantFrom(0.8, 0.9, 0.95, 0.99),
        (of, any, level) => {
          const count = any % (of + 1);
          const { share, low, high } = shareBounds(count, of, level);
          expect(low <= share && share <= high).toBe(true);
          if (count > 0) expect(Math.abs(atLeast(count, of, low) - (1 - level) / 2)).toBeLessThan(1e-9);
          if (count < of) expect(Math.abs(1 - atLeast(count + 1, of, high) - (1 - level) / 2)).toBeLessThan(1e-9);
        },
      ),
      { ...settings, numRuns: 200 },
    );
  });

  test('more than all, less than none and parts are refused', () => {
    for (const [count, of] of [
      [-1, 3],
      [4, 3],
      [0, 0],
      [0.5, 2],
    ] as const)
      expect(() => shareBounds(count, of, 0.95)).toThrow(RangeError);
    expect(() => shareBounds(1, 2, 1.5)).toThrow(RangeError);
  });
});

describe('capability', () => {
  // NIST e-Handbook of Statistical Methods, 6.1.6: limits 8 and 20, mean 16, s 2 (from memory).
  test('the published example', () => {
    const found = capability({ mean: 16, standardDeviation: 2 }, { low: 8, high: 20 })!;
    const claim = { of: 'capability', against: 'NIST e-Handbook 6.1.6 (from memory)' };
    expectPrinted(found.potential!, '1.0', claim);
    expectPrinted(found.actual, '0.6667', claim);
    expectPrinted(capability({ mean: 16, standardDeviation: 2 }, { high: 20 })!.actual, '0.6667', claim);
    expectPrinted(capability({ mean: 16, standardDeviation: 2 }, { low: 8 })!.actual, '1.3333', claim);
  });

  test('bounds by hand', () => {
    const potential = potentialBounds(1.33, 11, 0.95)!;
    const claim = { of: 'potentialBounds', against: 'by hand from the printed chi-square' };
    expectAbsolute(potential.low, 1.33 * Math.sqrt(3.247 / 10), 1e-3, claim);
    expectAbsolute(potential.high, 1.33 * Math.sqrt(20.483 / 10), 1e-3, claim);
    // 1 / 450 + 1 / 98 = 0.0124263; its root is 0.111474, times 1.96 is 0.218489
    const actual = actualBounds(1, 50, 0.95)!;
    expectAbsolute(actual.low, 0.7815, 5e-5, { of: 'actualBounds', against: 'by hand' });
    expectAbsolute(actual.high, 1.2185, 5e-5, { of: 'actualBounds', against: 'by hand' });
  });

  test('the bounds hold what is true as often as they say', () => {
    const [count, size, level] = [2000, 40, 0.95];
    const limits = { low: -4, high: 3 };
    const truth = capability({ mean: 0, standardDeviation: 1 }, limits)!;
    let [potentials, actuals] = [0, 0];
    for (const readings of samples(count, size)) {
      const { mean, standardDeviation } = summarise(readings)!;
      const found = capability({ mean, standardDeviation: standardDeviation! }, limits)!;
      const cp = potentialBounds(found.potential!, size, level)!;
      const cpk = actualBounds(found.actual, size, level)!;
      if (cp.low <= truth.potential! && truth.potential! <= cp.high) potentials += 1;
      if (cpk.low <= truth.actual && truth.actual <= cpk.high) actuals += 1;
    }
    // four standard deviations of such a count are 0.02
    expectAbsolute(potentials / count, level, 0.02, { of: 'potentialBounds', against: '2000 normal samples' });
    expectAbsolute(actuals / count, level, 0.02, { of: 'actualBounds', against: '2000 normal samples' });
  });

  test('no bounds where there is nothing to bound', () => {
    expect(potentialBounds(1, 1, 0.95)).toBeUndefined();
    expect(actualBounds(1, 1, 0.95)).toBeUndefined();
    expect(potentialBounds(Infinity, 10, 0.95)).toBeUndefined();
    expect(actualBounds(-Infinity, 10, 0.95)).toBeUndefined();
    expect(() => actualBounds(1, 10, 2)).toThrow(RangeError);
  });
});

describe('normality', () => {
  test('the statistic is the integral that defines it', () => {
    // n times the integral of (share of readings - F)^2 / (F (1 - F)) over F, by the midpoint rule between the readings
    for (const readings of samples(5, 12)) {
      const { mean, standardDeviation } = summarise(readings)!;
      const at = readings.map((x) => normalShare((x - mean) / standardDeviation!)).sort((a, b) => a - b);
      const ends = [0, ...at, 1];
      let sum = 0;
      for (let i = 0; i + 1 < ends.length; i += 1) {
        const [from, to] = [ends[i]!, ends[i + 1]!];
        const parts = 20000;
        for (let k = 0; k < parts; k += 1) {
          const f = from + ((k + 0.5) * (to - from)) / parts;
          sum += (((i / at.length - f) ** 2 / (f * (1 - f))) * (to - from)) / parts;
        }
      }
      const corrected = at.length * sum * (1 + 0.75 / 12 + 2.25 / 144);
      expectAbsolute(testNormality(readings)!.statistic, corrected, 1e-4, {
        of: 'testNormality',
        against: 'the integral, by the midpoint rule',
      });
    }
  });

  test('one of twenty normal samples is rejected, and most that are not normal', () => {
    const normal = samples(2000, 30);
    const rejected = normal.filter((readings) => !testNormality(readings)!.looksNormal).length;
    expectAbsolute(rejected / 2000, 0.05, 0.02, { of: 'testNormality', against: '2000 normal samples' });
    const skewed = normal.map((readings) => readings.map((x) => Math.exp(x)));
    expect(skewed.filter((readings) => testNormality(readings)!.looksNormal).length).toBeLessThan(40);
  });

  test('neither unit nor zero point matters, and what says nothing is left open', () => {
    const [readings] = samples(1, 20);
    const moved = readings!.map((x) => 1000 - 3 * x);
    expect(testNormality(moved)!.statistic).toBeCloseTo(testNormality(readings!)!.statistic, 9);
    expect(testNormality(readings!.slice(0, 7))).toBeUndefined();
    expect(testNormality(Array.from({ length: 20 }, () => 2))).toBeUndefined();
    expect(testNormality([...Array.from({ length: 40 }, (_, i) => i % 5), 1e9])!.looksNormal).toBe(false);
  });
});

// The normal and Student distributions: printed tables, closed forms, and numerical integration as the second method.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalDensity, normalQuantile, normalShare } from '../../../src/calc/statistics/normal.js';
import { coverageFactor, studentBeyond } from '../../../src/calc/statistics/student.js';
import { settings } from '../interval/exact.js';
import { expectPrinted, expectRelative } from '../outside/record.js';

describe('normal', () => {
  // JCGM 106:2012, table 1 (from memory; it prints 0.84, 1.28, 1.64, 2.33, 3.09); exact quantiles worked out elsewhere.
  test('z for a wanted share', () => {
    const claim = { of: 'normalQuantile', against: 'JCGM 106:2012, table 1 (from memory)' };
    expectRelative(normalQuantile(0.8), 0.841621233572914, 1e-12, claim);
    expectRelative(normalQuantile(0.9), 1.2815515655446, 1e-12, claim);
    expectRelative(normalQuantile(0.95), 1.64485362695147, 1e-12, claim);
    expectRelative(normalQuantile(0.99), 2.32634787404084, 1e-12, claim);
    expectRelative(normalQuantile(0.999), 3.09023230616781, 1e-12, claim);
    expectRelative(normalQuantile(0.9999), 3.71901648545571, 1e-12, claim);
    for (const [p, printed] of [
      [0.8, '0.84'],
      [0.9, '1.28'],
      [0.95, '1.64'],
      [0.99, '2.33'],
      [0.999, '3.09'],
    ] as const) {
      expectPrinted(normalQuantile(p), printed, claim);
    }
  });

  test('the share is the integral of the density', () => {
    for (const z of [-7, -3, -2.01, -1.99, -0.5, 0, 0.3, 1.99, 2.01, 4]) {
      // Simpson's rule in steps of 1/200 from far out.
      let sum = 0;
      const from = -40;
      const count = Math.round((z - from) * 200) * 2;
      const h = (z - from) / count;
      for (let i = 0; i <= count; i += 1)
        sum += normalDensity(from + i * h) * (i === 0 || i === count ? 1 : i % 2 === 1 ? 4 : 2);
      expectRelative(normalShare(z), (sum * h) / 3, 1e-9, { of: 'normalShare', against: "Simpson's rule" });
    }
  });

  test('both ways, symmetric, at the ends', () => {
    fc.assert(
      fc.property(fc.double({ min: -8, max: 8, noNaN: true }), (z) => {
        expect(normalShare(z) + normalShare(-z)).toBeCloseTo(1, 15);
        if (z < 0) expect(Math.abs(normalQuantile(normalShare(z)) - z)).toBeLessThan(1e-12);
      }),
      settings,
    );
    expect([normalShare(-Infinity), normalShare(Infinity), normalShare(0)]).toEqual([0, 1, 0.5]);
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(RangeError);
    expect(() => normalShare(Number.NaN)).toThrow(RangeError);
    expect(normalShare(normalQuantile(1e-300)) / 1e-300).toBeCloseTo(1, 10);
  });
});

describe('Student', () => {
  // JCGM 100:2008 (GUM), table G.2.
  test('coverage factors as printed', () => {
    const claim = { of: 'coverageFactor', against: 'JCGM 100:2008, table G.2' };
    for (const [level, degrees, printed] of [
      [0.95, 16, '2.12'],
      [0.9545, 16, '2.17'],
      [0.99, 16, '2.92'],
      [0.9545, Infinity, '2.00'],
      [0.95, 5, '2.57'],
      [0.95, 19, '2.09'],
    ] as const)
      expectPrinted(coverageFactor(level, degrees), printed, claim);
    expectRelative(coverageFactor(0.95, 5), 2.5706, 2e-5, claim);
  });

  test('one and two degrees have closed forms: a tangent, and p sqrt(2/(1 - p^2))', () => {
    for (const p of [0.5, 0.9, 0.95, 0.99, 0.9973]) {
      const claim = { of: 'coverageFactor', against: 'closed form for 1 and 2 degrees' };
      expectRelative(coverageFactor(p, 1), Math.tan((Math.PI * p) / 2), 1e-12, claim);
      expectRelative(coverageFactor(p, 2), p * Math.sqrt(2 / (1 - p * p)), 1e-12, claim);
    }
  });

  test('the share beyond is the integral of the density', () => {
    for (const degrees of [3, 4.5, 16, 120]) {
      for (const t of [0.3, 1, 2.5]) {
        // The share between 0 and t over that between 0 and far out, the density without its factor; x = tan(a).
        const slice = (to: number) => {
          const h = to / 4000;
          let sum = 0;
          for (let i = 0; i <= 4000; i += 1) {
            const cosine = Math.cos(i * h);
            const density = (1 + Math.tan(i * h) ** 2 / degrees) ** (-(degrees + 1) / 2) / (cosine * cosine);
            sum += (Number.isFinite(density) ? density : 0) * (i === 0 || i === 4000 ? 1 : i % 2 === 1 ? 4 : 2);
          }
          return (sum * h) / 3;
        };
        const target = 1 - slice(Math.atan(t)) / slice(Math.PI / 2 - 1e-9);
        expectRelative(studentBeyond(t, degrees), target, 1e-6, { of: 'studentBeyond', against: "Simpson's rule" });
      }
    }
  });

  test('both ways of working out agree where one takes over from the other', () => {
    for (const level of [0.5, 0.95, 0.9973]) {
      expect(studentBeyond(coverageFactor(level, 10001), 10001) / (1 - level)).toBeCloseTo(1, 10);
      expect(studentBeyond(coverageFactor(level, 2e8), 2e8) / (1 - level)).toBeCloseTo(1, 10);
      expect(coverageFactor(level, 9999) / coverageFactor(level, 10001) - 1).toBeLessThan(1e-7);
    }
  });

  test('many degrees come to the normal distribution; fewer never give a smaller factor', () => {
    expect(coverageFactor(0.95, 1e9)).toBeCloseTo(1.959963984540054 + 2.3722713e-9, 12);
    expect(coverageFactor(0.95, Infinity)).toBeCloseTo(1.959963984540054, 12);
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 500, noNaN: true }),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (degrees, level) => {
          const factor = coverageFactor(level, degrees);
          expect(factor).toBeGreaterThan(coverageFactor(level, degrees + 1));
          expect(studentBeyond(factor, degrees)).toBeCloseTo(1 - level, 10);
        },
      ),
      { ...settings, numRuns: 200 },
    );
    for (const [level, degrees] of [
      [0, 5],
      [1, 5],
      [0.95, 0],
      [0.95, Number.NaN],
    ] as const) {
      expect(() => coverageFactor(level, degrees)).toThrow(RangeError);
    }
    expect(() => studentBeyond(-1, 5)).toThrow(RangeError);
    expect(studentBeyond(Infinity, 5)).toBe(0);
  });
});

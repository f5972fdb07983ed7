// Summaries and capability: worked examples of the GUM and of NIST StRD, and a second method in exact fractions.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { capability } from '../../../src/calc/statistics/capability.js';
import { correlation, summarise } from '../../../src/calc/statistics/summary.js';
import { type Fraction, fraction, minus, over, plus, settings, times } from '../interval/exact.js';
import { expectAbsolute, expectPrinted, expectRelative, expectSame } from '../outside/record.js';

describe('published examples', () => {
  // JCGM 100:2008 (GUM), 4.4.3, table 1: twenty readings of a temperature in degC.
  test('GUM 4.4.3: mean, scatter and scatter of the mean', () => {
    const readings = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const found = summarise(readings)!;
    const claim = { of: 'summarise', against: 'JCGM 100:2008, 4.4.3' };
    expectPrinted(found.mean, '100.145', claim);
    expectPrinted(found.standardDeviation!, '1.489', claim);
    expectPrinted(found.standardError!, '0.333', claim);
    expectSame(found.count - 1, 19, claim);
  });

  // JCGM 100:2008 (GUM), H.2, table H.2: five sets of voltage, current and phase.
  test('GUM H.2: means, their uncertainties and correlations', () => {
    const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
    const amperes = [0.019663, 0.019639, 0.01964, 0.019685, 0.019678];
    const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
    const claim = { of: 'summarise', against: 'JCGM 100:2008, H.2' };
    expectPrinted(summarise(volts)!.mean, '4.9990', claim);
    expectPrinted(summarise(volts)!.standardError!, '0.0032', claim);
    expectPrinted(summarise(amperes)!.mean * 1000, '19.6610', claim);
    expectPrinted(summarise(amperes)!.standardError! * 1e6, '9.5', claim);
    expectPrinted(summarise(radians)!.mean, '1.04446', claim);
    expectPrinted(summarise(radians)!.standardError!, '0.00075', claim);
    const tied = { of: 'correlation', against: 'JCGM 100:2008, H.2' };
    // The GUM prints -0.36 and -0.65 where the data give -0.355 and -0.645.
    expectAbsolute(correlation(volts, amperes)!, -0.36, 0.0055, tied);
    expectAbsolute(correlation(volts, radians)!, 0.86, 0.005, tied);
    expectAbsolute(correlation(amperes, radians)!, -0.65, 0.0055, tied);
  });

  // NIST StRD, summary statistics, NumAcc1 and NumAcc2 (made by rule, values exact).
  test('NIST StRD: readings that differ in the last digits only', () => {
    const first = summarise([10000001, 10000003, 10000002])!;
    const claim = { of: 'summarise', against: 'NIST StRD NumAcc1, NumAcc2 (typed)' };
    expectSame([first.mean, first.standardDeviation, first.lagOne], [10000002, 1, -0.5], claim);
    const second = summarise([1.2, ...Array.from({ length: 500 }, () => [1.1, 1.3]).flat()])!;
    expectRelative(second.mean, 1.2, 1e-15, claim);
    expectRelative(second.standardDeviation!, 0.1, 1e-14, claim);
    expectRelative(second.lagOne!, -0.999, 1e-14, claim);
  });

  // NumAcc4 of NIST StRD is where the textbook formula sum x^2 - n mean^2 loses everything.
  test('NIST StRD NumAcc4: eight digits, which the data as floats still hold', () => {
    const values = [10000000.2, ...Array.from({ length: 500 }, () => [10000000.1, 10000000.3]).flat()];
    const found = summarise(values)!;
    expectRelative(found.standardDeviation!, 0.1, 1e-8, { of: 'summarise', against: 'NIST StRD NumAcc4 (typed)' });
    const naive = Math.sqrt(
      (values.reduce((s, x) => s + x * x, 0) - values.length * found.mean ** 2) / (values.length - 1),
    );
    expect(Math.abs(naive - 0.1) < 0.01).toBe(false);
  });
});

describe('a second method: exact fractions', () => {
  test('variance', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((x) => Math.abs(x) > 1e-6 || x === 0),
          { minLength: 2, maxLength: 12 },
        ),
        (values) => {
          const exact = values.map(fraction);
          const count: Fraction = { top: BigInt(values.length), bottom: 1n };
          const zero: Fraction = { top: 0n, bottom: 1n };
          const mean = over(exact.reduce(plus, zero), count);
          const squares = exact.map((x) => minus(x, mean)).reduce((sum, d) => plus(sum, times(d, d)), zero);
          const variance = over(squares, { top: BigInt(values.length - 1), bottom: 1n });
          const scale = 10n ** 60n;
          const target = Number((variance.top * scale) / variance.bottom) / 1e60;
          expectRelative(summarise(values)!.standardDeviation! ** 2, target, target === 0 ? 0 : 1e-14, {
            of: 'summarise',
            against: 'exact fractions on BigInt',
          });
        },
      ),
      { ...settings, numRuns: 300 },
    );
  });
});

describe('edges', () => {
  test('no reading, one reading, equal readings', () => {
    expect(summarise([])).toBeUndefined();
    expect(summarise([3])).toEqual({
      count: 1,
      mean: 3,
      min: 3,
      max: 3,
      standardDeviation: undefined,
      standardError: undefined,
      lagOne: undefined,
    });
    expect(summarise([0.1, 0.1, 0.1])!.standardDeviation).toBe(0);
    expect(correlation([1, 1], [1, 2])).toBeUndefined();
    expect(correlation([1], [2])).toBeUndefined();
  });

  test('what is no reading is named with its place', () => {
    expect(() => summarise([1, Number.NaN])).toThrow('place 2');
    expect(() => correlation([1, 2], [1])).toThrow(RangeError);
  });
});

describe('capability', () => {
  // D. C. Montgomery, Introduction to Statistical Quality Control: Cp at least 1.33 for an existing process, 1.50 for a
  // new or safety-critical one, 1.67 for one that is both (1996, as quoted).
  test('the guide values are eight, nine and ten standard deviations between the limits', () => {
    for (const [wanted, sigmas] of [
      ['1.33', 8],
      ['1.50', 9],
      ['1.67', 10],
    ] as const) {
      const found = capability({ mean: 0, standardDeviation: 1 }, { low: -sigmas / 2, high: sigmas / 2 })!;
      expectPrinted(found.potential!, wanted, { of: 'capability', against: 'Montgomery 1996 (as quoted)' });
      expect(found.actual).toBeCloseTo(found.potential!, 12);
    }
  });

  test('off centre, one-sided, without scatter, without limits', () => {
    expect(capability({ mean: 1, standardDeviation: 0.5 }, { low: 0, high: 6 })).toEqual({
      potential: 2,
      actual: 2 / 3,
    });
    expect(capability({ mean: 1, standardDeviation: 0.5 }, { high: 4 })).toEqual({ potential: undefined, actual: 2 });
    expect(capability({ mean: 5, standardDeviation: 0.5 }, { high: 4 })!.actual).toBeLessThan(0);
    expect(capability({ mean: 5, standardDeviation: 0 }, { high: 4 })!.actual).toBe(-Infinity);
    expect(capability({ mean: 3, standardDeviation: 0 }, { high: 4 })!.actual).toBe(Infinity);
    expect(capability({ mean: 4, standardDeviation: 0 }, { high: 4 })!.actual).toBe(0);
    expect(capability({ mean: 3, standardDeviation: 1 }, {})).toBeUndefined();
    expect(capability({ mean: 3, standardDeviation: Number.NaN }, { low: 1 })).toBeUndefined();
  });
});

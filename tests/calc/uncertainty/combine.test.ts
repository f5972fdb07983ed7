// Combining uncertainties: the examples of the GUM and of EA-4/02, then Monte Carlo as the slow second method.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { correlation, summarise } from '../../../src/calc/statistics/summary.js';
import { combine, expand, propagate } from '../../../src/calc/uncertainty/combine.js';
import { simulate } from '../../../src/calc/uncertainty/monte-carlo.js';
import { degreesFromDoubt, meterError, standardUncertainty } from '../../../src/calc/uncertainty/type-b.js';
import { settings } from '../interval/exact.js';
import { expectAbsolute, expectPrinted, expectRelative, expectSame } from '../outside/record.js';

describe('GUM H.1: calibration of an end gauge', () => {
  // JCGM 100:2008, annex H.1, table H.1; lengths in nm, temperatures in degC.
  // l = ls + d - ls (da theta + as dt); the sensitivities to as and theta are 0 because da and dt are 0 on average.
  const ls = 50.000623e6;
  const gauge = { sensitivity: 1, uncertainty: 25, degrees: 18 };
  const comparison = { sensitivity: 1, uncertainty: 9.7, degrees: 25.6 };
  const expansion = { sensitivity: 0, uncertainty: 1.2e-6 };
  const temperature = { sensitivity: 0, uncertainty: 0.41 };
  const expansionDifference = { sensitivity: -ls * -0.1, uncertainty: 0.58e-6, degrees: 50 };
  const temperatureDifference = { sensitivity: -ls * 11.5e-6, uncertainty: 0.029, degrees: 2 };
  const inputs = [gauge, comparison, expansion, temperature, expansionDifference, temperatureDifference];
  const claim = { of: 'combine', against: 'JCGM 100:2008, H.1' };

  test('the shares and the combined uncertainty', () => {
    const found = combine(inputs);
    expectPrinted(found.shares[4]!, '2.9', claim);
    // The exact product is 16.675; the GUM prints 16.6.
    expectAbsolute(found.shares[5]!, 16.6, 0.08, claim);
    expectPrinted(found.uncertainty, '32', claim);
    expectRelative(found.uncertainty ** 2, 1002, 0.005, claim);
    // 16.7 with the printed, rounded numbers.
    expectAbsolute(found.degrees!, 16.7, 0.15, claim);
  });

  test('the expanded uncertainty at 99 %: 93 nm printed is 2.92 times the rounded 32', () => {
    const found = combine(inputs);
    const expanded = expand(found.uncertainty, 0.99, found.degrees);
    expectSame(expanded.degrees, 16, { ...claim, of: 'expand' });
    expectPrinted(expanded.factor, '2.92', { ...claim, of: 'expand' });
    expectPrinted(expanded.expanded, '92.6', { ...claim, of: 'expand' });
    expectPrinted(expand(32, 0.99, 16.7).expanded, '93', { ...claim, of: 'expand' });
  });

  test('with the second-order terms: 11.9 and 1.7 nm more, 34 nm in all', () => {
    const first = { first: 4, second: 3, mixedDerivative: -ls };
    const second = { first: 2, second: 5, mixedDerivative: -ls };
    const alone = (tie: typeof first) =>
      combine(
        inputs.map((input) => ({ ...input, sensitivity: 0 })),
        [tie],
      ).uncertainty;
    expectPrinted(alone(first), '11.9', claim);
    expectPrinted(alone(second), '1.7', claim);
    expectPrinted(combine(inputs, [first, second]).uncertainty, '34', claim);
    expectAbsolute(combine(inputs, [first, second]).uncertainty, 33.911, 0.0005, claim);
  });

  test('Monte Carlo with the whole model gives the second-order result', () => {
    const found = simulate(
      ([s, d, as, theta, da, dt]) => s! + d! - (ls + s!) * (da! * theta! + as! * dt!),
      [
        { kind: 'normal', mean: 0, uncertainty: 25 },
        { kind: 'normal', mean: 0, uncertainty: 9.7 },
        { kind: 'normal', mean: 11.5e-6, uncertainty: 1.2e-6 },
        { kind: 'normal', mean: -0.1, uncertainty: 0.41 },
        { kind: 'normal', mean: 0, uncertainty: 0.58e-6 },
        { kind: 'normal', mean: 0, uncertainty: 0.029 },
      ],
      { seed: 1, count: 100_000, level: 0.99 },
    );
    expectRelative(found.uncertainty, 33.911, 0.01, { of: 'combine', against: 'Monte Carlo, 100 000 trials' });
  });
});

describe('GUM H.2: resistance, reactance and impedance from voltage, current and phase', () => {
  const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
  const amperes = [0.019663, 0.019639, 0.01964, 0.019685, 0.019678];
  const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const lists = [volts, amperes, radians];
  const means = lists.map((list) => summarise(list)!.mean) as [number, number, number];
  const errors = lists.map((list) => summarise(list)!.standardError!);
  const [v, i, phi] = means;
  const [sine, cosine] = [Math.sin(phi), Math.cos(phi)];
  const resistance = [cosine / i, (-v * cosine) / i ** 2, (-v * sine) / i];
  const reactance = [sine / i, (-v * sine) / i ** 2, (v * cosine) / i];
  const impedance = [1 / i, -v / i ** 2, 0];
  const r = (a: number, b: number) => (a === b ? 1 : correlation(lists[a]!, lists[b]!)!);
  const covariance = [0, 1, 2].map((a) => [0, 1, 2].map((b) => r(a, b) * errors[a]! * errors[b]!));

  // JCGM 100:2008, table H.4 (from memory): R = 127.732, X = 219.847, Z = 254.260 ohm; u = 0.071, 0.295, 0.236.
  test('values and uncertainties, with correlated inputs', () => {
    const claim = { of: 'combine', against: 'JCGM 100:2008, H.2 (from memory)' };
    expectPrinted((v / i) * cosine, '127.732', claim);
    expectPrinted((v / i) * sine, '219.847', claim);
    expectPrinted(v / i, '254.260', claim);
    const ties = [
      { first: 0, second: 1, correlation: r(0, 1) },
      { first: 0, second: 2, correlation: r(0, 2) },
      { first: 1, second: 2, correlation: r(1, 2) },
    ];
    const u = (sensitivities: readonly number[]) =>
      combine(
        sensitivities.map((sensitivity, k) => ({ sensitivity, uncertainty: errors[k]!, degrees: 4 })),
        ties,
      );
    expectPrinted(u(resistance).uncertainty, '0.071', claim);
    // 0.2956 from the raw data, of which the GUM prints 0.295.
    expectAbsolute(u(reactance).uncertainty, 0.295, 0.001, claim);
    expectPrinted(u(impedance).uncertainty, '0.236', claim);
    expect(u(resistance).degrees).toBeUndefined();
  });

  test('correlations of the results: -0.588, -0.485, 0.993', () => {
    const joint = propagate([resistance, reactance, impedance], covariance);
    const tie = (a: number, b: number) => joint[a]![b]! / Math.sqrt(joint[a]![a]! * joint[b]![b]!);
    const claim = { of: 'propagate', against: 'JCGM 100:2008, H.2 (from memory)' };
    expectPrinted(tie(0, 1), '-0.588', claim);
    expectPrinted(tie(0, 2), '-0.485', claim);
    expectPrinted(tie(1, 2), '0.993', claim);
  });
});

describe('other worked examples', () => {
  // JCGM 100:2008, G.4.1. With the rounded u_c = 1.03 the formula gives 19.0, unrounded 18.9987, which truncates to 18:
  // the order of rounding decides.
  test('GUM G.4.1: effective degrees of freedom, and the trap of rounding first', () => {
    const found = combine([
      { sensitivity: 1, uncertainty: 0.25, degrees: 9 },
      { sensitivity: 1, uncertainty: 0.57, degrees: 4 },
      { sensitivity: 1, uncertainty: 0.82, degrees: 14 },
    ]);
    const claim = { of: 'combine', against: 'JCGM 100:2008, G.4.1' };
    expectPrinted(found.uncertainty, '1.03', claim);
    expectPrinted(found.degrees!, '19.0', claim);
    expectAbsolute(found.degrees!, 18.9987, 0.00005, claim);
    expectSame(expand(1.03, 0.95, found.degrees).degrees, 18, { ...claim, of: 'expand' });
    expectPrinted(expand(1.03, 0.95, 19).factor, '2.09', { ...claim, of: 'expand' });
    expectPrinted(expand(1.03, 0.95, 19).expanded, '2.2', { ...claim, of: 'expand' });
    expectPrinted(expand(1.03, 0.95, found.degrees).expanded, '2.2', { ...claim, of: 'expand' });
  });

  // EA-4/02 M:2022, supplement S2: calibration of a 10 kg weight, in mg. Printed from its rounded table: 29.2 and 58.
  test('EA-4/02 S2: a mass budget', () => {
    const found = combine([22.5, 8.66, 14.43, 5.77, 5.77].map((uncertainty) => ({ sensitivity: 1, uncertainty })));
    const claim = { of: 'combine', against: 'EA-4/02 M:2022, S2' };
    expectPrinted(found.uncertainty, '29.26', claim);
    expectPrinted(2 * found.uncertainty, '58.5', claim);
    expectAbsolute(found.uncertainty, 29.2, 0.1, claim);
    expect(found.degrees).toBe(Infinity);
  });

  // JCGM 100:2008, 4.3.7, 4.3.9, H.1.3.4 (arcsine), F.2.2.1 (resolution), G.4.2 (degrees of freedom).
  test('type B divisors and their degrees of freedom', () => {
    const claim = { of: 'standardUncertainty', against: 'JCGM 100:2008, 4.3' };
    expectRelative(standardUncertainty({ shape: 'rectangular', halfWidth: 1 }), 1 / Math.sqrt(3), 1e-15, claim);
    expectRelative(standardUncertainty({ shape: 'triangular', halfWidth: 1 }), 1 / Math.sqrt(6), 1e-15, claim);
    expectRelative(standardUncertainty({ shape: 'arcsine', halfWidth: 1 }), 1 / Math.sqrt(2), 1e-15, claim);
    expectPrinted(standardUncertainty({ shape: 'resolution', step: 0.01 }), '0.0028868', claim);
    expectSame(standardUncertainty({ shape: 'normal', expanded: 0.4, factor: 2 }), 0.2, claim);
    for (const [doubt, degrees] of [
      [0.25, 8],
      [0.1, 50],
      [0.5, 2],
    ] as const) {
      expectRelative(degreesFromDoubt(doubt), degrees, 1e-12, {
        of: 'degreesFromDoubt',
        against: 'JCGM 100:2008, G.4.2',
      });
    }
    expect(degreesFromDoubt(0)).toBe(Infinity);
    expect(() => standardUncertainty({ shape: 'rectangular', halfWidth: -1 })).toThrow(RangeError);
    expect(() => standardUncertainty({ shape: 'normal', expanded: 1, factor: 0 })).toThrow(RangeError);
    expect(() => degreesFromDoubt(-0.1)).toThrow(RangeError);
  });

  // Instrument tutorials: accuracy as a share of the reading and counts of the last digit.
  test('a digital multimeter: four worked examples, and one for a height sensor', () => {
    const claim = { of: 'meterError', against: 'instrument tutorials' };
    const near = (reading: number, accuracy: Parameters<typeof meterError>[1], expected: number) =>
      expectRelative(meterError(reading, accuracy), expected, 1e-12, claim);
    near(1.755, { ofReading: 0.005, counts: 1, resolution: 0.001 }, 0.009775);
    near(100, { ofReading: 0.01, counts: 2, resolution: 0.1 }, 1.2);
    near(2, { ofReading: 0.005, counts: 3, resolution: 0.001 }, 0.013);
    near(2, { ofReading: 0.0008, counts: 2, resolution: 0.001 }, 0.0036);
    const sensor = meterError(2.5, { ofReading: 0.005, counts: 3, resolution: 0.001 });
    expectRelative(sensor, 0.0155, 1e-12, claim);
    expectRelative(standardUncertainty({ shape: 'rectangular', halfWidth: sensor }), 0.0089489291724392, 1e-12, claim);
    near(-3, { ofRange: 0.001, range: 10 }, 0.01);
  });
});

describe('properties', () => {
  const input = fc.record({
    sensitivity: fc.double({ min: -5, max: 5, noNaN: true }),
    uncertainty: fc.double({ min: 0, max: 5, noNaN: true }),
  });

  test('more uncertainty of an input never gives less of the result; the order does not matter', () => {
    fc.assert(
      fc.property(
        fc.array(input, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (inputs, more) => {
          const before = combine(inputs).uncertainty;
          const after = combine(
            inputs.map((one, k) => (k === 0 ? { ...one, uncertainty: one.uncertainty + more } : one)),
          ).uncertainty;
          expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-12));
          expect(combine([...inputs].reverse()).uncertainty).toBeCloseTo(before, 9);
        },
      ),
      settings,
    );
  });

  test('a correlation of 1 adds the shares, -1 takes them off', () => {
    const inputs = [
      { sensitivity: 2, uncertainty: 3 },
      { sensitivity: 1, uncertainty: 4 },
    ];
    expect(combine(inputs, [{ first: 0, second: 1, correlation: 1 }]).uncertainty).toBeCloseTo(10, 12);
    expect(combine(inputs, [{ first: 0, second: 1, correlation: -1 }]).uncertainty).toBeCloseTo(2, 12);
    expect(combine([]).uncertainty).toBe(0);
  });

  test('what cannot be is refused', () => {
    const one = { sensitivity: 1, uncertainty: 1 };
    expect(() => combine([{ sensitivity: 1, uncertainty: -1 }])).toThrow(RangeError);
    expect(() => combine([{ ...one, degrees: 0 }])).toThrow(RangeError);
    expect(() => combine([one, one], [{ first: 0, second: 1, correlation: 2 }])).toThrow(RangeError);
    expect(() => combine([one], [{ first: 0, second: 1 }])).toThrow(RangeError);
    const ties = [
      [0, 1],
      [1, 2],
      [0, 2],
    ].map(([first, second]) => ({ first: first!, second: second!, correlation: -0.9 }));
    expect(() => combine([one, one, one], ties)).toThrow('contradict');
    expect(() => propagate([[1, 2]], [[1]])).toThrow(RangeError);
  });
});

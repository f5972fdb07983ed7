// Least squares: the calibration line of the GUM, small NIST StRD sets, and properties of any fit.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitLinear, fitPolynomial } from '../../../src/calc/statistics/least-squares.js';
import { fitLine, fitThroughOrigin, type Line, predict, readBack } from '../../../src/calc/statistics/line.js';
import { settings } from '../interval/exact.js';
import { expectPrinted, expectRelative } from '../outside/record.js';

function fitted<T extends { readonly kind: string }>(found: T): Extract<T, { kind: 'fitted' }> {
  if (found.kind !== 'fitted') throw new Error(`Expected a fit, got ${JSON.stringify(found)}`);
  return found as Extract<T, { kind: 'fitted' }>;
}

// JCGM 100:2008 (GUM), H.3, table H.6: corrections b of a thermometer at temperatures t, in degC.
const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];

describe('GUM H.3: calibration of a thermometer', () => {
  const line = fitted(fitLine(t, b, 20));
  const claim = { of: 'fitLine', against: 'JCGM 100:2008, H.3' };

  test('height, slope, their uncertainties and correlation', () => {
    expectPrinted(line.height, '-0.1712', claim);
    expectPrinted(line.heightError!, '0.0029', claim);
    expectPrinted(line.slope, '0.00218', claim);
    expectPrinted(line.slopeError!, '0.00067', claim);
    expectPrinted(line.correlation!, '-0.930', claim);
    expectPrinted(line.residualStandardDeviation!, '0.0035', claim);
    expect(line.degreesOfFreedom).toBe(9);
  });

  test('the predicted correction at 30 degC', () => {
    const found = predict(line, 30);
    expectPrinted(found.value, '-0.1494', { ...claim, of: 'predict' });
    expectPrinted(found.lineError!, '0.0041', { ...claim, of: 'predict' });
    expect(found.readingError!).toBeGreaterThan(found.lineError!);
  });

  test('the same line about another place predicts the same', () => {
    const other = fitted(fitLine(t, b, 24.0085));
    for (const at of [0, 20, 24, 30]) {
      expect(predict(other, at).value).toBeCloseTo(predict(line, at).value, 13);
      expect(predict(other, at).lineError!).toBeCloseTo(predict(line, at).lineError!, 13);
    }
    // About the mean of x, height and slope are independent (JCGM 100:2008, H.3.5).
    expect(Math.abs(other.correlation!)).toBeLessThan(1e-3);
  });

  test('reading back gives the place that was predicted', () => {
    const back = readBack(line, predict(line, 27).value)!;
    expect(back.x).toBeCloseTo(27, 10);
    expect(back.error!).toBeCloseTo(predict(line, 27).readingError! / line.slope, 12);
    expect(readBack({ ...line, slope: 0 } as Line, 1)).toBeUndefined();
  });
});

describe('NIST StRD, small sets typed in', () => {
  test('NoInt1 and NoInt2: lines through the origin', () => {
    const claim = { of: 'fitThroughOrigin', against: 'NIST StRD NoInt1, NoInt2 (typed)' };
    const one = fitted(
      fitThroughOrigin(
        [60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70],
        [130, 131, 132, 133, 134, 135, 136, 137, 138, 139, 140],
      ),
    );
    expectRelative(one.slope, 2.07438016528926, 1e-14, claim);
    expectRelative(one.slopeError!, 0.0165289256198347, 1e-14, claim);
    expectRelative(one.residualStandardDeviation!, 3.56753034006338, 1e-14, claim);
    expectRelative(one.rSquared!, 0.999365492298663, 1e-14, claim);
    expect([one.about, one.height, one.heightError, one.correlation]).toEqual([0, 0, 0, 0]);
    const two = fitted(fitThroughOrigin([4, 5, 6], [3, 4, 4]));
    expectRelative(two.slope, 0.727272727272727, 1e-14, claim);
    expectRelative(two.slopeError!, 0.0420827318078432, 1e-14, claim);
  });

  test('Wampler1: a polynomial of degree 5 without error, coefficients all 1', () => {
    const x = Array.from({ length: 21 }, (_, i) => i);
    const y = x.map((v) => 1 + v + v ** 2 + v ** 3 + v ** 4 + v ** 5);
    const found = fitted(fitPolynomial(x, y, 5));
    const claim = { of: 'fitPolynomial', against: 'NIST StRD Wampler1, Wampler3 (typed)' };
    for (const c of found.coefficients) expectRelative(c, 1, 1e-14, claim);
    expect(found.residualStandardDeviation!).toBeLessThan(1e-9);
    expectRelative(found.rSquared!, 1, 1e-15, claim);
    // Wampler3 adds these errors, which no polynomial of degree 5 follows.
    const noise = [
      759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 2523,
      -2048, 2048, -2048, 759,
    ];
    const noisy = fitted(
      fitPolynomial(
        x,
        y.map((v, i) => v + noise[i]!),
        5,
      ),
    );
    for (const c of noisy.coefficients) expectRelative(c, 1, 1e-13, claim);
    expectRelative(noisy.standardErrors![0]!, 2152.3262467817, 1e-14, claim);
    expectRelative(noisy.residualStandardDeviation!, 2360.14502379268, 1e-14, claim);
  });
});

describe('any fit', () => {
  const points = fc.array(
    fc.tuple(fc.double({ min: -100, max: 100, noNaN: true }), fc.double({ min: -100, max: 100, noNaN: true })),
    {
      minLength: 4,
      maxLength: 15,
    },
  );

  test('its residuals are square to every column', () => {
    fc.assert(
      fc.property(points, (pairs) => {
        const x = pairs.map(([a]) => Math.round(a));
        const y = pairs.map(([, v]) => v);
        const found = fitPolynomial(x, y, 2);
        fc.pre(found.kind === 'fitted');
        if (found.kind !== 'fitted') return;
        for (const power of [0, 1, 2]) {
          const dot = found.residuals.reduce((sum, r, i) => sum + r * x[i]! ** power, 0);
          expect(Math.abs(dot)).toBeLessThan(1e-7);
        }
      }),
      { ...settings, numRuns: 300 },
    );
  });

  test('moving the points moves the line: y + c lifts it, 2y doubles it', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: -50, max: 50 }), (pairs, c) => {
        const x = pairs.map(([a]) => Math.round(a));
        const y = pairs.map(([, v]) => Math.round(v * 8) / 8);
        const line = fitLine(x, y);
        const lifted = fitLine(
          x,
          y.map((v) => v + c),
        );
        const doubledLine = fitLine(
          x,
          y.map((v) => 2 * v),
        );
        expect(lifted.kind).toBe(line.kind);
        if (line.kind !== 'fitted' || lifted.kind !== 'fitted' || doubledLine.kind !== 'fitted') return;
        expect(lifted.slope).toBeCloseTo(line.slope, 10);
        expect(lifted.height).toBeCloseTo(line.height + c, 9);
        expect(doubledLine.slope).toBeCloseTo(2 * line.slope, 10);
      }),
      { ...settings, numRuns: 300 },
    );
  });

  test('what has no single answer says why', () => {
    expect(fitLine([1], [2])).toEqual({ kind: 'undetermined', because: 'too-few-points' });
    expect(fitLine([0.1, 0.1, 0.1], [1, 2, 3])).toEqual({ kind: 'undetermined', because: 'dependent-columns' });
    expect(fitThroughOrigin([0, 0], [1, 2])).toEqual({ kind: 'undetermined', because: 'dependent-columns' });
    const twice = {
      columns: [
        [1, 2, 3],
        [2, 4, 6],
      ],
      intercept: true,
    };
    expect(fitLinear(twice, [1, 2, 4])).toEqual({ kind: 'undetermined', because: 'dependent-columns' });
    const exact = fitted(fitLine([0, 1], [1, 3]));
    expect([exact.height, exact.slope, exact.slopeError]).toEqual([1, 2, undefined]);
    expect(predict(exact, 5)).toEqual({ value: 11, lineError: undefined, readingError: undefined });
    expect(() => fitLine([1, 2], [1])).toThrow(RangeError);
    expect(() => fitLine([1, Infinity], [1, 2])).toThrow('place 2');
    expect(() => fitPolynomial([1, 2], [1, 2], 0.5)).toThrow(RangeError);
  });
});

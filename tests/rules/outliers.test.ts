// Numbers far off their siblings: the score of Iglewicz and Hoaglin (1993), the NIST/SEMATECH e-Handbook 1.3.5.17.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSiblings, outliersAmong } from '../../src/rules/across/outliers.js';

const positive = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

describe('outliers among siblings', () => {
  it('finds a moved decimal point', () => {
    expect(outliersAmong([3.8, 3.9, 0.38, 4.0], 1.1)).toEqual([{ index: 2, factor: expect.closeTo(0.0987, 3) }]);
  });

  it('finds two exchanged digits among numbers that agree', () => {
    expect(outliersAmong([36, 34, 63, 35], 1.1).map(({ index }) => index)).toEqual([2]);
  });

  it('leaves a modified score of 3.5 alone and takes the next one', () => {
    // logarithms -1, 0, 0, 1 and x: median 0 and MAD 1, so that the score is 0.6745 x
    const numbers = (x: number): readonly number[] => [-1, 0, 0, 1, x].map((one) => Math.exp(one));
    expect(outliersAmong(numbers(3.5 / 0.6745 - 0.001), 1.001)).toEqual([]);
    expect(outliersAmong(numbers(3.5 / 0.6745 + 0.001), 1.001).map(({ index }) => index)).toEqual([4]);
  });

  it('says nothing below four, nor where a number is not above zero', () => {
    expect(outliersAmong([1, 1, 100], 1.1)).toEqual([]);
    expect(outliersAmong([1, 1, 1, 1, 0], 1.1)).toEqual([]);
    expect(outliersAmong([1, 1, 1, 1, -100], 1.1)).toEqual([]);
  });

  it('does not depend on the unit, and never calls half of them far off', () => {
    const cases = fc.tuple(fc.array(positive, { minLength: leastSiblings, maxLength: 9 }), positive);
    fc.assert(
      fc.property(cases, ([numbers, unit]) => {
        const found = outliersAmong(numbers, 1.1).map(({ index }) => index);
        const scaled = numbers.map((one) => one * unit);
        expect(found.length * 2).toBeLessThan(numbers.length + 1);
        // at the very edge of the score a rounding may decide
        const both = new Set([...found, ...outliersAmong(scaled, 1.1).map(({ index }) => index)]);
        expect(both.size - found.length).toBeLessThanOrEqual(0);
      }),
    );
  });
});

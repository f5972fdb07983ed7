// Exact fractions: laws, decimals against BigInt, floats next to a fraction, and rounding rules by hand.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Rational } from '../../../src/calc/rational.js';
import {
  add,
  compare,
  decimalExponent,
  divide,
  exactDecimals,
  formatDecimals,
  fromBinary,
  fromDecimal,
  fromNumber,
  multiply,
  negate,
  power,
  rational,
  shorten,
  sign,
  subtract,
  tenTo,
  toInteger,
  toMultiple,
  toNumber,
  zero,
} from '../../../src/calc/rational.js';
import { anyFloat } from '../interval/exact.js';
import { number, settings, show } from './reading.js';

const fractions: fc.Arbitrary<Rational> = fc
  .tuple(fc.bigInt(-(10n ** 30n), 10n ** 30n), fc.bigInt(1n, 10n ** 12n))
  .map(([num, den]) => rational(num, den));

describe('fractions', () => {
  test('keep the laws of arithmetic exactly', () => {
    fc.assert(
      fc.property(fractions, fractions, fractions, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
        expect(subtract(add(a, b), b)).toEqual(a);
        if (sign(b) !== 0) expect(multiply(divide(a, b), b)).toEqual(a);
        expect(compare(a, b)).toBe(sign(subtract(a, b)));
      }),
      settings,
    );
  });

  test('lose what numerator and denominator share, however long they are', () => {
    // Euclid's algorithm on whole numbers of any length
    const euclid = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : euclid(b, a % b));
    const long = fc.bigInt(1n, 2n ** 120n);
    // where floats stop being whole numbers
    const edge = fc.bigInt(2n ** 53n - 40n, 2n ** 53n + 40n);
    const any = fc.oneof(long, edge, fc.bigInt(1n, 1000n));
    fc.assert(
      fc.property(any, any, any, (a, b, shared) => {
        const common = euclid(a * shared, b * shared);
        const lowest = { num: (a * shared) / common, den: (b * shared) / common };
        expect(rational(a * shared, b * shared)).toEqual(lowest);
        expect(rational(-a * shared, b * shared)).toEqual(negate(lowest));
      }),
      { ...settings, numRuns: 500 },
    );
  });

  test('of a power of two are what any fraction is', () => {
    fc.assert(
      fc.property(fc.bigInt(-(2n ** 70n), 2n ** 70n), fc.nat(140), fc.nat(250), (num, zeros, twos) => {
        const long = num << BigInt(zeros);
        expect(fromBinary(long, twos)).toEqual(rational(long, 1n << BigInt(twos)));
      }),
      { ...settings, numRuns: 500 },
    );
    expect(fromBinary(0n, 5)).toEqual(zero);
  });

  test('are in lowest terms with a positive denominator', () => {
    fc.assert(
      fc.property(fc.bigInt(-1000n, 1000n), fc.bigInt(-1000n, 1000n), (num, den) => {
        fc.pre(den !== 0n);
        const a = rational(num, den);
        expect(a.den > 0n).toBe(true);
        expect(a.num * den).toBe(num * a.den);
        for (let i = 2n; i <= 1000n; i += 1n) expect(a.num !== 0n && a.num % i === 0n && a.den % i === 0n).toBe(false);
      }),
      { ...settings, numRuns: 40 },
    );
  });

  test('refuse a zero denominator', () => {
    expect(() => rational(1, 0)).toThrow(RangeError);
    expect(() => divide(rational(1), zero)).toThrow(RangeError);
  });
});

describe('decimal texts', () => {
  test.each([
    ['3.60', '18/5'],
    ['-12', '-12'],
    ['.5', '1/2'],
    ['1e-3', '1/1000'],
    ['2.5E+2', '250'],
    ['0', '0'],
    ['0.0', '0'],
  ])('%s is %s', (text, exact) => {
    expect(show(fromDecimal(text))).toBe(exact);
  });

  test.each(['', '.', 'x', '1,5', '1e400', '1e-400', '1e9999999', '0x10', 'Infinity', 'NaN', '--1', '1 '])(
    '%j is none',
    (text) => {
      expect(fromDecimal(text)).toBeUndefined();
    },
  );

  test('are exact: the digits moved by powers of ten', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 25n), 10n ** 25n), fc.integer({ min: 0, max: 20 }), (digits, places) => {
        const text = formatDecimals(rational(digits, 10n ** BigInt(places)), places);
        const value = fromDecimal(text);
        expect(value && value.num * 10n ** BigInt(places)).toBe(value && digits * value.den);
      }),
      settings,
    );
  });
});

describe('rounding', () => {
  // IEEE 754-2019, 4.3.1, and ASTM E29-22, 6.4.1 (from memory): a tie goes to the even digit.
  test.each([
    ['2.5', 0, '2'],
    ['3.5', 0, '4'],
    ['-2.5', 0, '-2'],
    ['0.125', 2, '0.12'],
    ['0.135', 2, '0.14'],
    ['0.1250001', 2, '0.13'],
    ['-0.4', 0, '0'],
    ['250', -2, '200'],
    ['350', -2, '400'],
  ])('%s to %d decimals is %s', (text, decimals, rounded) => {
    expect(formatDecimals(number(text), decimals)).toBe(rounded);
  });

  test('down and up enclose, and meet at multiples', () => {
    fc.assert(
      fc.property(fractions, fc.integer({ min: -5, max: 12 }), (a, places) => {
        const step = tenTo(-places);
        const [low, high] = [toMultiple(a, step, 'down'), toMultiple(a, step, 'up')];
        expect(compare(low, a)).not.toBe(1);
        expect(compare(high, a)).not.toBe(-1);
        expect(subtract(high, low).num === 0n || show(subtract(high, low)) === show(step)).toBe(true);
        expect(toInteger(negate(a), 'down')).toBe(-toInteger(a, 'up'));
      }),
      settings,
    );
  });

  test('to multiples that are no powers of ten', () => {
    expect(show(toMultiple(number('57'), number('20'), 'down'))).toBe('40');
    expect(show(toMultiple(number('50'), number('20'), 'nearest'))).toBe('40');
    expect(show(toMultiple(number('0.37'), rational(1, 8), 'up'))).toBe('3/8');
  });
});

describe('floats', () => {
  test('come back unchanged', () => {
    fc.assert(
      fc.property(anyFloat, (x) => {
        for (const way of ['down', 'up', 'nearest'] as const)
          expect(toNumber(fromNumber(x), way)).toBe(x === 0 ? 0 : x);
      }),
      { ...settings, numRuns: 2000 },
    );
  });

  test('lie next to the fraction: no float between them and it', () => {
    fc.assert(
      fc.property(fractions, fc.integer({ min: -300, max: 300 }), (a, exponent) => {
        const value = multiply(a, tenTo(exponent));
        const [low, high] = [toNumber(value, 'down'), toNumber(value, 'up')];
        if (Number.isFinite(low)) expect(compare(fromNumber(low), value)).not.toBe(1);
        if (Number.isFinite(high)) expect(compare(fromNumber(high), value)).not.toBe(-1);
        if (low !== high && Number.isFinite(low) && Number.isFinite(high)) {
          const middle = low + (high - low) / 2;
          expect(middle === low || middle === high).toBe(true);
        }
        expect([low, high]).toContain(toNumber(value, 'nearest'));
      }),
      { ...settings, numRuns: 1000 },
    );
  });

  test('agree with the reading of decimals by the engine', () => {
    fc.assert(
      fc.property(fc.bigInt(1n, 10n ** 22n), fc.integer({ min: -320, max: 280 }), (digits, exponent) => {
        const value =
          exponent < 0 ? rational(digits, 10n ** BigInt(-exponent)) : rational(digits * 10n ** BigInt(exponent));
        expect(toNumber(value)).toBe(Number(`${digits}e${exponent}`));
      }),
      { ...settings, numRuns: 1000 },
    );
  });

  test('beyond the largest and below the smallest', () => {
    expect(toNumber(tenTo(400), 'down')).toBe(Number.MAX_VALUE);
    expect(toNumber(tenTo(400), 'up')).toBe(Number.POSITIVE_INFINITY);
    expect(toNumber(negate(tenTo(400)), 'up')).toBe(-Number.MAX_VALUE);
    expect(toNumber(tenTo(-400), 'down')).toBe(0);
    expect(toNumber(tenTo(-400), 'up')).toBe(Number.MIN_VALUE);
    expect(() => fromNumber(Number.NaN)).toThrow(RangeError);
    expect(() => fromNumber(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});

describe('digits', () => {
  test('shortened fractions stay on their side', () => {
    fc.assert(
      fc.property(fractions, fc.integer({ min: 1, max: 40 }), (a, times) => {
        const value = power(a, times);
        expect(compare(shorten(value, 'down', 128), value)).not.toBe(1);
        expect(compare(shorten(value, 'up', 128), value)).not.toBe(-1);
        const width = subtract(shorten(value, 'up', 128), shorten(value, 'down', 128));
        expect(compare(multiply(width, rational(1n << 120n)), value.num < 0n ? negate(value) : value)).not.toBe(1);
      }),
      settings,
    );
  });

  test('how many decimals write it, and its power of ten', () => {
    expect(exactDecimals(rational(1, 8))).toBe(3);
    expect(exactDecimals(rational(1, 3))).toBeUndefined();
    expect(exactDecimals(rational(7))).toBe(0);
    expect(exactDecimals(rational(1, 1n << 40n))).toBeUndefined();
    fc.assert(
      fc.property(fractions, (a) => {
        fc.pre(sign(a) > 0);
        const exponent = decimalExponent(a);
        expect(compare(tenTo(exponent), a)).not.toBe(1);
        expect(compare(tenTo(exponent + 1), a)).toBe(1);
      }),
      settings,
    );
  });
});

// Directed rounding against exact fractions: never on the wrong side, and never a float further than need be.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addDown,
  addUp,
  divDown,
  divUp,
  mulDown,
  mulUp,
  nextDown,
  nextUp,
  powerOfTwo,
  sqrtDown,
  sqrtUp,
} from '../../../src/calc/interval/rounding.js';
import { note } from '../outside/record.js';
import { anyFloat, compareEnd, type Fraction, fraction, over, plus, settings, times } from './exact.js';

type Directed = (a: number, b: number) => number;
type Exactly = (a: Fraction, b: Fraction) => Fraction;

function expectNeighbours(exact: Fraction, down: number, up: number): void {
  expect(compareEnd(exact, down)).toBeGreaterThanOrEqual(0);
  expect(compareEnd(exact, up)).toBeLessThanOrEqual(0);
  if (compareEnd(exact, down) === 0) expect(up).toBe(down);
  else expect(up).toBe(nextUp(down));
}

describe('sum, product and quotient lie between neighbouring floats, or on one', () => {
  const cases: readonly (readonly [string, Directed, Directed, Exactly])[] = [
    ['add', addDown, addUp, plus],
    ['mul', mulDown, mulUp, times],
    ['div', divDown, divUp, over],
  ];
  for (const [name, down, up, exact] of cases) {
    test(name, () => {
      fc.assert(
        fc.property(anyFloat, anyFloat, (a, b) => {
          fc.pre(name !== 'div' || b !== 0);
          expectNeighbours(exact(fraction(a), fraction(b)), down(a, b) + 0, up(a, b) + 0);
          note({ of: name, against: 'exact fractions on BigInt', deviation: 0, unit: 'ulp' });
        }),
        settings,
      );
    });
  }

  test('products and quotients that fall among the subnormals', () => {
    const small = fc
      .tuple(anyFloat, fc.integer({ min: -1070, max: -960 }))
      .map(([a, e]) => (a === 0 ? 0 : (a / 2 ** Math.floor(Math.log2(Math.abs(a)))) * 2 ** e));
    fc.assert(
      fc.property(small, fc.double({ min: 0.001, max: 1000, noNaN: true }), (a, b) => {
        fc.pre(Number.isFinite(a));
        expectNeighbours(times(fraction(a), fraction(b)), mulDown(a, b) + 0, mulUp(a, b) + 0);
        expectNeighbours(over(fraction(a), fraction(b)), divDown(a, b) + 0, divUp(a, b) + 0);
      }),
      settings,
    );
  });

  test('sqrt: the square of each end lies on its side', () => {
    fc.assert(
      fc.property(anyFloat, (a) => {
        const x = Math.abs(a);
        const down = sqrtDown(x);
        const up = sqrtUp(x);
        expect(compareEnd(times(fraction(down), fraction(down)), x)).toBeLessThanOrEqual(0);
        expect(compareEnd(times(fraction(up), fraction(up)), x)).toBeGreaterThanOrEqual(0);
        expect(up === down || up === nextUp(down)).toBe(true);
        note({ of: 'sqrt', against: 'exact fractions on BigInt', deviation: 0, unit: 'ulp' });
      }),
      settings,
    );
  });
});

describe('at the edges of the floats', () => {
  test('neighbours', () => {
    expect(nextUp(0)).toBe(5e-324);
    expect(nextUp(-5e-324)).toBe(0);
    expect(nextUp(1)).toBe(1 + 2 ** -52);
    expect(nextDown(1)).toBe(1 - 2 ** -53);
    expect(nextUp(Number.MAX_VALUE)).toBe(Infinity);
    expect(nextDown(Infinity)).toBe(Number.MAX_VALUE);
    expect(nextDown(-Infinity)).toBe(-Infinity);
  });

  test('neighbours of any float, against its bits', () => {
    const view = new DataView(new ArrayBuffer(8));
    fc.assert(
      fc.property(anyFloat, fc.boolean(), (float, power) => {
        // Powers of two too, below which floats lie twice as dense.
        const x = power && float !== 0 ? Math.sign(float) * 2 ** Math.floor(Math.log2(Math.abs(float))) : float;
        fc.pre(x !== 0 && Number.isFinite(x));
        view.setFloat64(0, x);
        view.setBigInt64(0, view.getBigInt64(0) + (x > 0 ? 1n : -1n));
        expect(nextUp(x)).toBe(view.getFloat64(0) + 0);
      }),
      { ...settings, numRuns: 20_000 },
    );
  });

  test('powers of two from the least float to the largest', () => {
    for (let n = -1074, x = 5e-324; n <= 1023; n += 1, x *= 2) expect(powerOfTwo(n)).toBe(x);
    expect([powerOfTwo(-1075), powerOfTwo(1024)]).toEqual([0, Infinity]);
  });

  test('overflow stops at the largest float on the inner side', () => {
    expect(addDown(Number.MAX_VALUE, Number.MAX_VALUE)).toBe(Number.MAX_VALUE);
    expect(addUp(Number.MAX_VALUE, 1)).toBe(Infinity);
    expect(mulDown(Number.MAX_VALUE, 2)).toBe(Number.MAX_VALUE);
    expect(mulUp(-Number.MAX_VALUE, 2)).toBe(-Number.MAX_VALUE);
    expect(divUp(Number.MAX_VALUE, 0.5)).toBe(Infinity);
  });

  test('a product with an end at infinity never gives NaN', () => {
    expect(mulDown(0, Infinity)).toBe(0);
    expect(mulUp(-Infinity, 0)).toBe(0);
    expect(mulDown(Infinity, 2)).toBe(Infinity);
    expect(mulUp(Infinity, -2)).toBe(-Infinity);
    expect(divDown(5, Infinity)).toBe(0);
    expect(divUp(-Infinity, 2)).toBe(-Infinity);
  });
});

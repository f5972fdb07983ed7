// Sharp ranges: worked cases, a brute-force second method, and the two promises: nothing leaves the outer bound, and all of
// the attained one is reached.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dimensionless } from '../../../src/calc/dimension.js';
import { dimensionOf } from '../../../src/calc/expression/dimensions.js';
import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { rangeOf } from '../../../src/calc/expression/range.js';
import { sensitivitiesOf } from '../../../src/calc/expression/sensitivity.js';
import type { Enclosure, Rational } from '../../../src/calc/rational.js';
import { add, compare, divide, multiply, rational, subtract, toNumber } from '../../../src/calc/rational.js';
import { calcExpr, expr, range, right, settings, show, unit, wrong } from './reading.js';

const inputs: Readonly<Record<string, Enclosure>> = {
  x: range(0, 1),
  y: range(-1, 2),
  z: range(1, 3),
  on_ground: range('3.6', '4.2'),
  raised: range('0.7', '1.1'),
  supply: range('4.9', '5.1'),
  rows: range(12, 12),
};
const known = new Map(Object.entries(inputs));
const scope = (path: string): Enclosure | undefined => known.get(path);
const sharp = (text: string) => right(rangeOf(calcExpr(text), scope));

describe('exact ranges', () => {
  test.each([
    // used once
    ['on_ground - raised', '5/2', '7/2'],
    ['12 * (20 ± 0.25)', '237', '243'],
    ['y^2', '0', '4'],
    ['abs(y)', '0', '2'],
    ['min(x, z)', '0', '1'],
    ['x / (z + 1)', '0', '1/2'],
    // used more than once, each input one way
    ['x / (x + 1)', '0', '1/2'],
    ['(on_ground - raised) / on_ground', '25/36', '35/42'],
    ['z - 1 / z', '0', '8/3'],
    ['on_ground * raised / (on_ground + raised)', '126/215', '231/265'],
    ['x - x', '0', '0'],
    ['0.72 * supply - 0.5 * supply', '539/500', '561/500'],
    // an extreme inside that halving meets exactly
    ['x * (1 - x)', '0', '1/4'],
    ['x^2 - x', '-1/4', '0'],
    ['y * y', '0', '4'],
    ['z * z - z', '0', '6'],
    ['(y - 0.5)^2', '0', '9/4'],
    ['1 / (y * y + 1)', '1/5', '1'],
  ])('%s runs from %s to %s', (text, low, high) => {
    const found = sharp(text);
    expect(found.proved).toBe(true);
    const close = (end: Rational, wanted: string): boolean => {
      const [num = '0', den = '1'] = wanted.split('/');
      return Math.abs(toNumber(subtract(end, rational(BigInt(num), BigInt(den))))) <= 3e-9;
    };
    expect([show(found.outer.low), show(found.outer.high)]).toEqual(
      [low, high].map((text) => show(rational(BigInt(text.split('/')[0] ?? 0), BigInt(text.split('/')[1] ?? 1)))),
    );
    expect(close(found.attained.low, low) && close(found.attained.high, high)).toBe(true);
  });

  // by calculus: y^3 - y has its extreme at 1 / sqrt 3, z / (z^2 + 1) at 1, sin t cos t is sin 2t / 2
  test.each([
    ['y^3 - y', -2 / (3 * Math.sqrt(3)), 6],
    ['z / (z * z + 1)', 0.3, 0.5],
    ['sin(y * 1 rad) * cos(y * 1 rad)', -0.5, 0.5],
    ['sqrt(y * y + 0.25)', 0.5, Math.sqrt(4.25)],
    ['sin(x * 1 rev)', -1, 1],
    ['z^z', 1, 27],
    ['y * y * y * y - 2 * y * y + x * y', -2, 10],
    ['sin(z * 1 rad)', Math.sin(3), 1],
  ])('%s runs from %d to %d', (text, low, high) => {
    const { outer, attained } = sharp(text);
    expect(toNumber(outer.low)).toBeCloseTo(low, 5);
    expect(toNumber(outer.high)).toBeCloseTo(high, 5);
    expect(toNumber(attained.low)).toBeCloseTo(low, 5);
    expect(toNumber(attained.high)).toBeCloseTo(high, 5);
  });

  test('a written range is an input of its own each time', () => {
    expect(show(sharp('(0 to 1) - (0 to 1)').outer.low)).toBe('-1');
  });

  test('a division is judged by the sharp range of what divides', () => {
    expect(rangeOf(expr('1 / (y * y + 1)'), scope).ok).toBe(true);
    expect(rangeOf(expr('1 / (x - x + 1)'), scope).ok).toBe(true);
    expect(rangeOf(expr('1 / (y * (y - 3) + 3)'), scope).ok).toBe(true);
    const fault = wrong(rangeOf(expr('2 + 1 / (y - x)'), scope));
    expect(fault).toMatchObject({ start: 8, end: 15 });
    expect(wrong(rangeOf(expr('sqrt(x - 0.5)'), scope)).message).toMatch(/negative/);
    expect(rangeOf(expr('sqrt(y * (y - 3) + 3)'), scope).ok).toBe(true);
  });

  test('a spent budget says so, and both bounds still hold', () => {
    const found = right(rangeOf(expr('(x - y) * (x + y) * (x * y - z) / (z + x)'), scope, 20));
    expect(found.proved).toBe(false);
    // the extremes found by hand at corners: y = 2, x = 0 gives 4, x = 1, y = 2, z = 1 gives -1.5
    expect(compare(found.outer.low, rational(-3, 2))).not.toBe(1);
    expect(compare(found.outer.high, rational(4))).not.toBe(-1);
    expect(compare(found.attained.high, rational(4))).not.toBe(1);
  });
});

/** Expressions over x, y and z without dimensions, and a text that every part of them can be read from. */
const { tree } = fc.letrec<{ tree: string }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4 },
    fc.constantFrom('x', 'y', 'z', '1', '2', '0.5'),
    fc
      .tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/', '*', '-'), tie('tree'))
      .map(([a, op, b]) => `(${a} ${op} ${b})`),
    fc.tuple(fc.constantFrom('abs', 'sqrt'), tie('tree')).map(([name, a]) => `${name}(${a})`),
    tie('tree').map((a) => `(${a})^2`),
    fc.tuple(tie('tree'), tie('tree')).map(([a, b]) => `min(${a}, ${b})`),
    tie('tree').map((a) => `sin(${a} * 1 rad)`),
  ),
}));
const share = fc.integer({ min: 0, max: 64 });

describe('any expression', () => {
  test('keeps every value that it takes within the outer bound, and reaches the attained one', () => {
    fc.assert(
      fc.property(tree, fc.array(fc.tuple(share, share, share), { minLength: 12, maxLength: 12 }), (text, points) => {
        const of = expr(text);
        expect(dimensionOf(of, () => ({ dimension: dimensionless })).ok).toBe(true);
        const found = rangeOf(of, scope, 120);
        const values = points.flatMap((shares) => {
          const at = (path: string): Enclosure => {
            const whole = inputs[path] ?? range(0, 0);
            const value = add(
              whole.low,
              multiply(subtract(whole.high, whole.low), rational(shares['xyz'.indexOf(path)] ?? 0, 64)),
            );
            return { low: value, high: value };
          };
          const value = evaluate(of, at);
          return value.ok ? [value.value] : [];
        });
        if (!found.ok) return;
        const { outer, attained, proved } = found.value;
        for (const value of values) {
          expect(
            compare(outer.low, value.high) <= 0 && compare(value.low, outer.high) <= 0,
            `${text} at ${show(value.low)}`,
          ).toBe(true);
        }
        if (compare(attained.low, attained.high) <= 0) {
          expect(compare(outer.low, attained.low)).not.toBe(1);
          expect(compare(attained.high, outer.high)).not.toBe(1);
        }
        if (proved) {
          const width = toNumber(subtract(outer.high, outer.low));
          expect(toNumber(subtract(attained.low, outer.low))).toBeLessThanOrEqual(2e-9 * width + 1e-18);
        }
      }),
      { ...settings, numRuns: 400 },
    );
  });

  test('straight lines: the corners are the range, by trying all of them', () => {
    const term = fc.tuple(
      fc.integer({ min: -5, max: 5 }),
      fc.constantFrom('x', 'y', 'z', 'x * y', 'y * z', 'x * z', 'x * y * z'),
    );
    fc.assert(
      fc.property(fc.array(term, { minLength: 1, maxLength: 6 }), (terms) => {
        const text = terms.map(([factor, name]) => `(${factor}) * ${name}`).join(' + ');
        const corners: Rational[] = [];
        for (let i = 0; i < 8; i += 1) {
          const pick = (path: string): Rational => {
            const whole = inputs[path] ?? range(0, 0);
            return (i >> 'xyz'.indexOf(path)) % 2 === 0 ? whole.low : whole.high;
          };
          corners.push(
            terms.map(([factor, name]) => name.split(' * ').map(pick).reduce(multiply, rational(factor))).reduce(add),
          );
        }
        const { outer, attained, proved } = sharp(text);
        expect(proved).toBe(true);
        expect(show(outer.low)).toBe(show(corners.reduce((a, b) => (compare(a, b) < 0 ? a : b))));
        expect(show(outer.high)).toBe(show(corners.reduce((a, b) => (compare(a, b) > 0 ? a : b))));
        expect(attained).toEqual(outer);
      }),
      { ...settings, numRuns: 150 },
    );
  });
});

describe('sensitivities', () => {
  test('are the derivatives, over the whole range', () => {
    const found = new Map(sensitivitiesOf(expr('on_ground * raised - on_ground'), scope).map((one) => [one.name, one]));
    expect(show(found.get('on_ground')?.slope?.low)).toBe('-3/10');
    expect(show(found.get('on_ground')?.slope?.high)).toBe('1/10');
    expect(show(found.get('raised')?.slope?.low)).toBe('18/5');
    const degree = sensitivitiesOf(calcExpr('sin((0 to 30) deg)'), scope)[0];
    // the range is written in degrees: a hundred and eightieth of pi for each, at 0
    expect(toNumber(degree?.slope?.high ?? rational(0))).toBeCloseTo(Math.PI / 180, 12);
  });

  test('lie around the difference quotient', () => {
    fc.assert(
      fc.property(tree, share, share, (text, a, b) => {
        fc.pre(a !== b);
        const of = expr(text);
        const slope = sensitivitiesOf(of, scope).find(({ name }) => name === 'y')?.slope;
        if (!slope) return;
        const [p, q] = [a, b].map((i) => add(rational(-1), rational(3 * i, 64))) as [Rational, Rational];
        const middle = new Map(['x', 'z'].map((path) => [path, inputs[path]?.low ?? rational(0)]));
        const at = (value: Rational) =>
          evaluate(of, (path) => {
            const end = path === 'y' ? value : (middle.get(path) ?? rational(0));
            return { low: end, high: end };
          });
        const [f, g] = [at(p), at(q)];
        if (!f.ok || !g.ok) return;
        const ends = [
          divide(subtract(f.value.low, g.value.high), subtract(p, q)),
          divide(subtract(f.value.high, g.value.low), subtract(p, q)),
        ];
        const [low, high] = compare(ends[0] ?? p, ends[1] ?? p) <= 0 ? ends : [...ends].reverse();
        expect(compare(low ?? p, slope.high) <= 0 && compare(slope.low, high ?? p) <= 0, text).toBe(true);
      }),
      settings,
    );
    expect(unit('V').symbol).toBe('V');
  });
});

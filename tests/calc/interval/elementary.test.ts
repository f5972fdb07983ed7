// exp, log, sin, cos, tan, asin, acos, atan, atan2, pow: against published digits, and against plain Taylor series with
// 400 bits that share nothing with the code under test. Inverse functions are judged by the function they invert.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { acos, asin, atan, atan2, cos, exp, log, pi, sin, tan } from '../../../src/calc/interval/elementary.js';
import { EMPTY, ENTIRE, type Interval, interval, isSubset, point } from '../../../src/calc/interval/interval.js';
import { pow } from '../../../src/calc/interval/powers.js';
import { nextUp } from '../../../src/calc/interval/rounding.js';
import {
  atanFixed,
  expFixed,
  ln2Fixed,
  logFixed,
  MARGIN,
  piFixed,
  sinCosFixed,
} from '../../../src/calc/interval/series.js';
import { expectSame, note } from '../outside/record.js';
import {
  compare,
  compareEnd,
  cosExact,
  type Enclosed,
  expExact,
  type Fraction,
  fraction,
  over,
  settings,
  sinExact,
  times,
} from './exact.js';

const runs = { ...settings, numRuns: 400 };

/** The true value, known to lie in `truth`, is in `box`, whose ends are neighbours. */
function expectTight(truth: Enclosed, box: Interval, of: string): void {
  expect(compareEnd(truth.low, box.low)).toBeGreaterThanOrEqual(0);
  expect(compareEnd(truth.high, box.high)).toBeLessThanOrEqual(0);
  expect(box.high === nextUp(box.low) || box.high === box.low).toBe(true);
  note({ of, against: 'Taylor series with 400 bits', deviation: box.high === box.low ? 0 : 1, unit: 'ulp' });
}

const angle = fc.double({ min: -60, max: 60, noNaN: true }).filter((x) => Math.abs(x) > 1e-30);

describe('against the Taylor series', () => {
  test('exp', () => {
    fc.assert(
      fc.property(angle, (x) => expectTight(expExact(fraction(x)), exp(point(x)), 'exp')),
      runs,
    );
  });

  test('sin and cos', () => {
    fc.assert(
      fc.property(angle, (x) => {
        expectTight(sinExact(fraction(x)), sin(point(x)), 'sin');
        expectTight(cosExact(fraction(x)), cos(point(x)), 'cos');
      }),
      runs,
    );
  });

  test('tan', () => {
    fc.assert(
      fc.property(angle, (x) => {
        const sine = sinExact(fraction(x));
        const cosine = cosExact(fraction(x));
        const quotients = [sine.low, sine.high].flatMap((s) => [over(s, cosine.low), over(s, cosine.high)]);
        const sorted = quotients.sort(compare);
        expectTight({ low: sorted[0] as Fraction, high: sorted[3] as Fraction }, tan(point(x)), 'tan');
      }),
      runs,
    );
  });
});

describe('inverse functions, by the function that they invert', () => {
  const brackets = (low: Enclosed | undefined, x: Fraction, high: Enclosed | undefined) => {
    if (low !== undefined) expect(compare(low.low, x)).toBeLessThanOrEqual(0);
    if (high !== undefined) expect(compare(high.high, x)).toBeGreaterThanOrEqual(0);
  };
  const neighbours = (box: Interval, of: string) => {
    expect(box.high === nextUp(box.low) || box.high === box.low).toBe(true);
    note({
      of,
      against: 'its inverse by Taylor series with 400 bits',
      deviation: box.high === box.low ? 0 : 1,
      unit: 'ulp',
    });
  };

  test('log', () => {
    const positive = fc.oneof(
      fc.double({ min: 1e-20, max: 1e20, noNaN: true }),
      fc.double({ min: 0.9, max: 1.1, noNaN: true }),
    );
    fc.assert(
      fc.property(positive, (x) => {
        const box = log(point(x));
        brackets(expExact(fraction(box.low)), fraction(x), expExact(fraction(box.high)));
        neighbours(box, 'log');
      }),
      runs,
    );
  });

  test('asin and acos', () => {
    const sine = fc.oneof(
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: 1 - 1e-9, max: 1, noNaN: true }),
      fc.double({ min: -1e-9, max: 1e-9, noNaN: true }),
    );
    fc.assert(
      fc.property(sine, (x) => {
        fc.pre(x === 0 || Math.abs(x) > 1e-30);
        const arc = asin(point(x));
        if (Math.abs(x) < 1) brackets(sinExact(fraction(arc.low)), fraction(x), sinExact(fraction(arc.high)));
        neighbours(arc, 'asin');
        const other = acos(point(x));
        // The cosine falls.
        brackets(cosExact(fraction(other.high)), fraction(x), cosExact(fraction(other.low)));
        neighbours(other, 'acos');
      }),
      runs,
    );
  });

  test('atan and atan2', () => {
    const coordinate = fc.double({ min: -1000, max: 1000, noNaN: true }).filter((x) => Math.abs(x) > 1e-30);
    fc.assert(
      fc.property(coordinate, coordinate, (y, x) => {
        const arc = atan(point(y));
        // tan a <= y where sin a <= y cos a, the cosine being positive.
        const side = (a: number, scale: number) => {
          const sine = sinExact(fraction(a));
          const cosine = cosExact(fraction(a));
          return compare(times(sine.low, fraction(scale)), times(cosine.high, fraction(y)));
        };
        expect(side(arc.low, 1)).toBeLessThanOrEqual(0);
        expect(side(nextUp(arc.high), 1)).toBeGreaterThanOrEqual(0);
        neighbours(arc, 'atan');
        const turned = atan2(point(y), point(x));
        // The cross product of (cos a, sin a) with (x, y) has the sign of y's angle minus a, both being close.
        const cross = (a: number) =>
          compare(times(cosExact(fraction(a)).low, fraction(y)), times(sinExact(fraction(a)).low, fraction(x)));
        expect(cross(turned.low)).toBeGreaterThanOrEqual(0);
        expect(cross(turned.high)).toBeLessThanOrEqual(0);
        neighbours(turned, 'atan2');
      }),
      runs,
    );
  });

  test('pow with exponents of halves, quarters and eighths: low^8 <= x^n <= high^8', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.integer({ min: -40, max: 40 }), (x, n) => {
        const box = pow(point(x), point(n / 8));
        const base = fraction(x);
        const whole = { top: base.top ** BigInt(Math.abs(n)), bottom: base.bottom ** BigInt(Math.abs(n)) };
        const target = n < 0 ? over({ top: 1n, bottom: 1n }, whole) : whole;
        const eighth = (end: number) => ({ top: fraction(end).top ** 8n, bottom: fraction(end).bottom ** 8n });
        expect(compare(eighth(box.low), target)).toBeLessThanOrEqual(0);
        expect(compare(eighth(box.high), target)).toBeGreaterThanOrEqual(0);
        neighbours(box, 'pow');
      }),
      runs,
    );
  });
});

describe('against published digits', () => {
  // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, table 1.1 (from memory): pi, ln 2, e, sqrt 2.
  const digits: readonly (readonly [string, Interval, string])[] = [
    ['pi', pi(), '3.14159265358979323846264338327950288'],
    ['exp', exp(point(1)), '2.71828182845904523536028747135266250'],
    ['log', log(point(2)), '0.69314718055994530941723212145817657'],
    ['log', log(point(10)), '2.30258509299404568401799145468436421'],
    ['pow', pow(point(2), point(0.5)), '1.41421356237309504880168872420969807'],
    ['atan', atan(point(1)), '0.78539816339744830961566084581987572'],
    ['sin', sin(point(1)), '0.84147098480789650665250232163029899'],
    ['cos', cos(point(1)), '0.54030230586813971740093660744297660'],
  ];
  test.each(digits)('%s', (name, box, printed) => {
    const [whole = '', decimals = ''] = printed.split('.');
    const value = { top: BigInt(whole + decimals), bottom: 10n ** BigInt(decimals.length) };
    expect(compareEnd(value, box.low)).toBeGreaterThan(0);
    expect(compareEnd(value, box.high)).toBeLessThan(0);
    expect(box.high).toBe(nextUp(box.low));
    note({ of: name, against: 'Abramowitz, Stegun table 1.1 (from memory)', deviation: 1, unit: 'ulp' });
  });

  // J.-M. Muller, Elementary Functions, 3rd ed., ch. 11: the float next to a multiple of pi/2 (from memory); the cosine
  // there is known to be about -4.687e-19.
  test('the hardest argument of all floats', () => {
    const hardest = 6381956970095103 * 2 ** 797;
    const value = cos(point(hardest));
    expect(value.low).toBeCloseTo(-4.687165924254624e-19, 30);
    expect(value.high).toBe(nextUp(value.low));
    note({ of: 'cos', against: 'Muller 2016 (from memory)', deviation: 1, unit: 'ulp' });
  });
});

describe('turning points, poles and domains', () => {
  test('a wave that turns inside reaches 1', () => {
    expectSame(sin(interval(1, 2)).high, 1, { of: 'sin', against: 'calculus' });
    expectSame(sin(interval(4, 5)).low, -1, { of: 'sin', against: 'calculus' });
    expectSame(cos(interval(-1, 1)).high, 1, { of: 'cos', against: 'calculus' });
    expectSame(cos(interval(3, 4)).low, -1, { of: 'cos', against: 'calculus' });
    expect(sin(interval(0, 1)).low).toBe(0);
    expect(sin(interval(-100, 100))).toEqual({ low: -1, high: 1 });
    expect(cos(ENTIRE)).toEqual({ low: -1, high: 1 });
  });

  test('tan has a pole between 1 and 2, none between 2 and 3', () => {
    expect(tan(interval(1, 2))).toEqual(ENTIRE);
    expect(tan(interval(2, 3)).low).toBeLessThan(-2);
    expect(tan(interval(-Infinity, 0))).toEqual(ENTIRE);
  });

  test('only what lies in the domain counts', () => {
    expect(log(interval(-2, 0))).toEqual(EMPTY);
    expect(log(interval(-2, 1))).toEqual({ low: -Infinity, high: 0 });
    expect(asin(interval(2, 3))).toEqual(EMPTY);
    expect(acos(interval(1, 3))).toEqual(interval(0, 0));
    expect(pow(interval(-3, -1), point(2))).toEqual(EMPTY);
    expect(pow(interval(0, 2), interval(-1, 1))).toEqual(interval(0, Infinity));
    expect(atan2(point(0), point(0))).toEqual(EMPTY);
    for (const run of [exp, log, sin, cos, tan, asin, acos, atan]) expect(run(EMPTY)).toEqual(EMPTY);
  });

  test('powers that are floats are exact', () => {
    for (const [x, y, power] of [
      [4, 0.5, 2],
      [2.25, 1.5, 3.375],
      [16, -0.25, 0.5],
      [0.25, -0.5, 2],
      [6561, 0.125, 3],
      [9, 2, 81],
      [2, -1074, 5e-324],
      [2 ** 600, 1.5, 2 ** 900],
    ] as const)
      expect(pow(point(x), point(y))).toEqual({ low: power, high: power });
    // Beside them: no float, so two neighbours.
    expect(pow(point(8), point(0.5)).high).toBe(nextUp(pow(point(8), point(0.5)).low));
  });

  test('arguments too large or too small to matter', () => {
    expect(exp(point(1000))).toEqual({ low: Number.MAX_VALUE, high: Infinity });
    expect(exp(point(-1000))).toEqual({ low: 0, high: 5e-324 });
    expect(exp(point(1e-300))).toEqual({ low: 1, high: nextUp(1) });
    expect(sin(point(5e-324))).toEqual({ low: 0, high: 5e-324 });
    expect(tan(point(5e-324))).toEqual({ low: 5e-324, high: 1e-323 });
    expect(pow(point(0.5), point(1e300))).toEqual({ low: 0, high: 5e-324 });
  });

  test('below the reach of the series: between x - x^3/6 and x, or x and x + x^3', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1070, max: -90 }), fc.double({ min: 1, max: 2, noNaN: true }), (e, m) => {
        const x = m * 2 ** e;
        for (const run of [sin, atan]) {
          expect(run(point(x)).high).toBe(x);
          expect(nextUp(run(point(x)).low)).toBe(x);
          expect(run(point(-x)).low).toBe(-x);
        }
        for (const run of [tan, asin]) {
          expect(run(point(x)).low).toBe(x);
          expect(run(point(x)).high).toBe(nextUp(x));
          expect(run(point(-x)).high).toBe(-x);
        }
        expect(cos(point(x))).toEqual({ low: 1 - 2 ** -53, high: 1 });
      }),
      runs,
    );
  });

  test('a smaller box never gives a larger result', () => {
    const quarter = fc.tuple(fc.double({ min: -20, max: 20, noNaN: true }), fc.double({ min: 0, max: 4, noNaN: true }));
    fc.assert(
      fc.property(quarter, fc.double({ min: 0, max: 1, noNaN: true }), ([low, size], share) => {
        const box = interval(low, low + size);
        const part = interval(low + (size * share) / 2, low + size - (size * share) / 4);
        for (const run of [exp, log, sin, cos, tan, asin, acos, atan]) expect(isSubset(run(part), run(box))).toBe(true);
      }),
      runs,
    );
  });
});

describe('the margin that the proofs allow', () => {
  // Each series with 100 more bits shows what the shorter one lost: under 2^14 units, where 2^20 are given.
  const lost = (short: bigint, long: bigint) => {
    const difference = (short << 100n) - long;
    return (difference < 0n ? -difference : difference) >> 100n;
  };
  test('no series loses more than a sixty-fourth of it', () => {
    const size = fc.bigInt(0n, (1n << 200n) - 1n);
    fc.assert(
      fc.property(size, fc.bigInt(1n, 1n << 200n), (r, other) => {
        const wide = r << 100n;
        const worst = [
          lost(expFixed((r * 7n) / 10n, 200), expFixed(((r * 7n) / 10n) << 100n, 300)),
          lost(sinCosFixed(r, 200).sin, sinCosFixed(wide, 300).sin),
          lost(sinCosFixed(r, 200).cos, sinCosFixed(wide, 300).cos),
          lost(atanFixed(r, other, 200), atanFixed(r, other, 300)),
          lost(
            logFixed(3n * other + (r % (3n * other)), 4n * other, 200),
            logFixed(3n * other + (r % (3n * other)), 4n * other, 300),
          ),
          lost(piFixed(200), piFixed(300)),
          lost(ln2Fixed(200), ln2Fixed(300)),
        ];
        for (const loss of worst) expect(loss < MARGIN / 64n).toBe(true);
      }),
      runs,
    );
  });

  test('nor with the longest numbers in use', () => {
    const r = (1n << 2300n) / 3n;
    const wide = (1n << 4000n) / 3n;
    expect(lost(expFixed(r, 2300), expFixed(r << 100n, 2400)) < MARGIN / 16n).toBe(true);
    expect(lost(sinCosFixed(wide, 4000).sin, sinCosFixed(wide << 100n, 4100).sin) < MARGIN / 16n).toBe(true);
  });
});

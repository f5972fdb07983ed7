// Monte Carlo: the examples of JCGM 101, the moments of each distribution, and the same numbers from the same seed.

import { describe, expect, test } from 'vitest';
import { summarise } from '../../../src/calc/statistics/summary.js';
import { combine } from '../../../src/calc/uncertainty/combine.js';
import { type Distribution, simulate } from '../../../src/calc/uncertainty/monte-carlo.js';
import { createRandom } from '../../../src/calc/uncertainty/random.js';
import { expectAbsolute, expectRelative } from '../outside/record.js';

const sum = (inputs: readonly number[]) => inputs.reduce((total, x) => total + x, 0);
const trials = { seed: 7, count: 100_000, level: 0.95 };

describe('JCGM 101:2008, 9.2: sums of four inputs (from memory)', () => {
  test('four normal: u = 2.00, interval -3.92 to 3.92', () => {
    const found = simulate(
      sum,
      Array.from({ length: 4 }, (): Distribution => ({ kind: 'normal', mean: 0, uncertainty: 1 })),
      trials,
    );
    const claim = { of: 'simulate', against: 'JCGM 101:2008, 9.2.2 (from memory)' };
    expectAbsolute(found.mean, 0, 0.03, claim);
    expectAbsolute(found.uncertainty, 2, 0.02, claim);
    expectAbsolute(found.symmetric[0], -3.92, 0.06, claim);
    expectAbsolute(found.symmetric[1], 3.92, 0.06, claim);
  });

  test('four rectangular of the same scatter: u = 2.00, interval -3.88 to 3.88', () => {
    const a = Math.sqrt(3);
    const found = simulate(
      sum,
      Array.from({ length: 4 }, (): Distribution => ({ kind: 'rectangular', low: -a, high: a })),
      trials,
    );
    const claim = { of: 'simulate', against: 'JCGM 101:2008, 9.2.3 (from memory)' };
    expectAbsolute(found.uncertainty, 2, 0.02, claim);
    expectAbsolute((found.shortest[1] - found.shortest[0]) / 2, 3.88, 0.06, claim);
    expectAbsolute(found.symmetric[0], -3.88, 0.06, claim);
  });

  test('one rectangular ten times the others: the interval is narrower than the normal 19.9, near 17.0', () => {
    const a = Math.sqrt(3);
    const inputs: Distribution[] = [1, 1, 1, 10].map((s) => ({ kind: 'rectangular', low: -a * s, high: a * s }));
    const found = simulate(sum, inputs, trials);
    const claim = { of: 'simulate', against: 'JCGM 101:2008, 9.2.4 (from memory)' };
    expectAbsolute(found.uncertainty, 10.1, 0.1, claim);
    expectAbsolute(found.symmetric[1], 17, 0.15, claim);
    expectRelative(
      found.uncertainty,
      combine(inputs.map((_, i) => ({ sensitivity: 1, uncertainty: i === 3 ? 10 : 1 }))).uncertainty,
      0.01,
      {
        of: 'combine',
        against: 'Monte Carlo, 100 000 trials',
      },
    );
  });
});

describe('distributions', () => {
  const cases: readonly (readonly [Distribution, number, number])[] = [
    [{ kind: 'normal', mean: 5, uncertainty: 2 }, 5, 2],
    [{ kind: 'student', mean: 5, uncertainty: 2, degrees: 10 }, 5, 2 * Math.sqrt(10 / 8)],
    [{ kind: 'rectangular', low: 1, high: 3 }, 2, 1 / Math.sqrt(3)],
    [{ kind: 'triangular', low: 1, high: 3 }, 2, 1 / Math.sqrt(6)],
    [{ kind: 'arcsine', low: 1, high: 3 }, 2, 1 / Math.sqrt(2)],
  ];
  test.each(cases)('%j has its mean and scatter', (distribution, mean, scatter) => {
    const found = simulate(([x]) => x!, [distribution], trials);
    expect(Math.abs(found.mean - mean)).toBeLessThan(0.02);
    expectRelative(found.uncertainty, scatter, 0.02, {
      of: 'simulate',
      against: 'moments of the distributions (JCGM 101:2008, 6.4)',
    });
  });

  test('correlated inputs keep their correlation', () => {
    const inputs: Distribution[] = [
      { kind: 'normal', mean: 0, uncertainty: 1 },
      { kind: 'normal', mean: 0, uncertainty: 2 },
      { kind: 'normal', mean: 0, uncertainty: 3 },
    ];
    const correlations = [
      [1, 0.5, -0.2],
      [0.5, 1, 0.3],
      [-0.2, 0.3, 1],
    ];
    const found = simulate(sum, inputs, { ...trials, correlations });
    const u = combine(
      [1, 2, 3].map((uncertainty) => ({ sensitivity: 1, uncertainty })),
      [
        { first: 0, second: 1, correlation: 0.5 },
        { first: 0, second: 2, correlation: -0.2 },
        { first: 1, second: 2, correlation: 0.3 },
      ],
    ).uncertainty;
    expectRelative(u, found.uncertainty, 0.01, { of: 'combine', against: 'Monte Carlo, 100 000 trials' });
    const whole = simulate(([a, b]) => a! - b! / 2, inputs.slice(0, 2), {
      ...trials,
      correlations: [
        [1, 1],
        [1, 1],
      ],
    });
    expect(whole.uncertainty).toBeLessThan(1e-12);
  });
});

describe('the generator', () => {
  test('same seed, same numbers; another seed, others', () => {
    const first = createRandom(42);
    const again = createRandom(42);
    const other = createRandom(43);
    const numbers = Array.from({ length: 100 }, () => first.uniform());
    expect(Array.from({ length: 100 }, () => again.uniform())).toEqual(numbers);
    expect(Array.from({ length: 100 }, () => other.uniform())).not.toEqual(numbers);
    expect(numbers.every((x) => x > 0 && x < 1)).toBe(true);
    expect(() => createRandom(0.5)).toThrow(RangeError);
    expect(createRandom(0).uniform()).toBeGreaterThan(0);
  });

  test('evenly spread, and one number says nothing of the next', () => {
    const random = createRandom(3);
    const numbers = Array.from({ length: 60_000 }, () => random.uniform());
    const bins = Array<number>(60).fill(0);
    for (const x of numbers) bins[Math.floor(x * 60)]! += 1;
    // Chi squared with 59 degrees of freedom: 0.1 % lie above 98.3 (tables), as few below 30.
    const chi = bins.reduce((total, n) => total + (n - 1000) ** 2 / 1000, 0);
    expect(chi).toBeGreaterThan(30);
    expect(chi).toBeLessThan(98.3);
    expect(Math.abs(summarise(numbers)!.lagOne!)).toBeLessThan(0.015);
  });

  test('bad orders are refused', () => {
    const one: Distribution[] = [{ kind: 'rectangular', low: 0, high: 1 }];
    expect(() => simulate(sum, one, { ...trials, count: 10 })).toThrow(RangeError);
    expect(() => simulate(sum, one, { ...trials, level: 1 })).toThrow(RangeError);
    expect(() => simulate(sum, one, { ...trials, correlations: [[1]] })).toThrow('rectangular');
    expect(() => simulate(() => Number.NaN, one, { ...trials, count: 100 })).toThrow(RangeError);
    const normals: Distribution[] = [0, 1, 2].map(() => ({ kind: 'normal', mean: 0, uncertainty: 1 }));
    const impossible = [
      [1, -0.9, -0.9],
      [-0.9, 1, -0.9],
      [-0.9, -0.9, 1],
    ];
    expect(() => simulate(sum, normals, { ...trials, correlations: impossible })).toThrow('contradict');
    expect(() => simulate(sum, normals, { ...trials, correlations: [[1]] })).toThrow(RangeError);
  });
});

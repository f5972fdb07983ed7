// The NIST/ITL Statistical Reference Datasets (US National Institute of Standards and Technology): every linear and
// univariate set, with a floor of correct digits (log relative error) per set. Read from the folder OUTSIDE_VALUES.
// B. D. McCullough, The American Statistician 52(4), 1998 (from memory) expects of a good program in double precision:
// Norris 12+, Longley 11-13, Filip 7-8, Wampler1 9-10, NumAcc4 8+ digits. The floors here are what we promise.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Fit, fitLinear, fitPolynomial } from '../../../src/calc/statistics/least-squares.js';
import { fitLine, fitThroughOrigin } from '../../../src/calc/statistics/line.js';
import { summarise } from '../../../src/calc/statistics/summary.js';
import { note, outsideFolder } from './record.js';

interface LinearSet {
  readonly name: string;
  readonly degree: number | null;
  readonly intercept: boolean;
  readonly params: readonly { readonly estimate: string; readonly sd: string }[];
  readonly residual_sd: string;
  readonly r_squared: string;
  readonly x: readonly number[] | null;
  readonly x_rows: readonly (readonly number[])[] | null;
  readonly y: readonly number[];
}

interface UnivariateSet {
  readonly name: string;
  readonly mean: string;
  readonly sd_n_minus_1: string;
  readonly lag1_autocorrelation: string;
  readonly y?: readonly number[] | string;
  readonly first?: number;
  readonly pair?: readonly [number, number];
  readonly pairs?: number;
}

/** Digits that must be right: coefficients, their standard deviations (and the residual one), R squared. */
const linearFloors: Readonly<Record<string, readonly [number, number, number]>> = {
  Norris: [13, 13, 14],
  Pontius: [13, 13, 14],
  NoInt1: [14, 14, 14],
  NoInt2: [14, 14, 14],
  Filip: [13, 13, 14],
  Longley: [13, 13, 14],
  Wampler1: [14, 14, 14],
  Wampler2: [13, 14, 14],
  Wampler3: [14, 14, 14],
  Wampler4: [14, 14, 14],
  Wampler5: [14, 14, 14],
};

/** Mean, standard deviation, autocorrelation. Where the data are no floats (NumAcc3, 4) their last digits are lost on reading. */
const univariateFloors: Readonly<Record<string, readonly [number, number, number]>> = {
  NumAcc1: [15, 15, 15],
  NumAcc2: [15, 14, 14],
  NumAcc3: [15, 9, 9],
  NumAcc4: [15, 8, 8],
  PiDigits: [14, 14, 13],
  Lottery: [14, 14, 13],
  Lew: [14, 14, 14],
  Mavro: [14, 12, 12],
  Michelso: [14, 13, 13],
};

/** Correct digits: -log10 of the relative error (absolute where 0 is certified); 15 where nothing differs. */
function digits(value: number, certified: string): number {
  const target = Number(certified);
  const error = target === 0 ? Math.abs(value) : Math.abs((value - target) / target);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}

function expectDigits(pairs: readonly (readonly [number, string])[], floor: number, of: string, against: string): void {
  const worst = Math.min(...pairs.map(([value, certified]) => digits(value, certified)));
  expect(worst, `${of}: ${against}`).toBeGreaterThanOrEqual(floor);
  note({ of, against, deviation: worst, unit: 'correct digits' });
}

const folder = outsideFolder();

if (folder === undefined) {
  test.skip('StRD: OUTSIDE_VALUES is unset, its data sets were not run', () => {});
} else {
  const sets = JSON.parse(readFileSync(join(folder, 'strd.json'), 'utf8')) as {
    linear: readonly LinearSet[];
    univariate: readonly UnivariateSet[];
  };

  const solve = (set: LinearSet): Fit => {
    const columns = set.x_rows === null ? [set.x!] : set.x_rows[0]!.map((_, j) => set.x_rows!.map((row) => row[j]!));
    const found =
      set.degree === null
        ? fitLinear({ columns, intercept: set.intercept }, set.y)
        : fitPolynomial(set.x!, set.y, set.degree);
    if (found.kind !== 'fitted') throw new Error(`${set.name}: ${found.because}`);
    return found;
  };

  describe('StRD, linear least squares', () => {
    test('every set has a floor', () => {
      expect(sets.linear.map((set) => set.name).sort()).toEqual(Object.keys(linearFloors).sort());
    });
    test.each(sets.linear.map((set) => [set.name, set] as const))('%s', (name, set) => {
      const [estimates, errors, share] = linearFloors[name]!;
      const found = solve(set);
      const of = set.degree === null ? 'fitLinear' : 'fitPolynomial';
      expectDigits(
        found.coefficients.map((c, i) => [c, set.params[i]!.estimate] as const),
        estimates,
        of,
        `StRD ${name}, coefficients`,
      );
      const deviations = found.standardErrors!.map((s, i) => [s, set.params[i]!.sd] as const);
      expectDigits(
        [...deviations, [found.residualStandardDeviation!, set.residual_sd]],
        errors,
        of,
        `StRD ${name}, standard deviations`,
      );
      expectDigits([[found.rSquared!, set.r_squared]], share, of, `StRD ${name}, R squared`);
    });
    test('the line functions give the same', () => {
      const norris = sets.linear.find((set) => set.name === 'Norris')!;
      const line = fitLine(norris.x!, norris.y);
      const through = sets.linear.find((set) => set.name === 'NoInt1')!;
      const slope = fitThroughOrigin(through.x!, through.y);
      if (line.kind !== 'fitted' || slope.kind !== 'fitted') throw new Error('Expected both to be fitted');
      expectDigits(
        [
          [line.height, norris.params[0]!.estimate],
          [line.slope, norris.params[1]!.estimate],
        ],
        14,
        'fitLine',
        'StRD Norris, coefficients',
      );
      expectDigits(
        [
          [line.heightError!, norris.params[0]!.sd],
          [line.slopeError!, norris.params[1]!.sd],
        ],
        13,
        'fitLine',
        'StRD Norris, standard deviations',
      );
      expectDigits(
        [
          [slope.slope, through.params[0]!.estimate],
          [slope.slopeError!, through.params[0]!.sd],
        ],
        14,
        'fitThroughOrigin',
        'StRD NoInt1',
      );
    });
  });

  describe('StRD, univariate summaries', () => {
    test('every set has a floor', () => {
      expect(sets.univariate.map((set) => set.name).sort()).toEqual(Object.keys(univariateFloors).sort());
    });
    test.each(sets.univariate.map((set) => [set.name, set] as const))('%s', (name, set) => {
      const found = summarise(readings(set))!;
      const floors = univariateFloors[name]!;
      expectDigits([[found.mean, set.mean]], floors[0], 'summarise', `StRD ${name}, mean`);
      expectDigits(
        [[found.standardDeviation!, set.sd_n_minus_1]],
        floors[1],
        'summarise',
        `StRD ${name}, standard deviation`,
      );
      expectDigits(
        [[found.lagOne!, set.lag1_autocorrelation]],
        floors[2],
        'summarise',
        `StRD ${name}, autocorrelation`,
      );
    });
  });

  function readings(set: UnivariateSet): readonly number[] {
    if (typeof set.y === 'string') return [...set.y].map(Number);
    if (set.y !== undefined) return set.y;
    return [set.first!, ...Array.from({ length: set.pairs! }, () => set.pair!).flat()];
  }
}

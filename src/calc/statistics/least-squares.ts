// Least squares for any linear model, with the uncertainty of what is fitted. Straight lines stand in line.ts.

import { type Doubled, dotDoubled, doubled, minus, ONE, over, single, sumDoubled, times } from './doubled.js';
import { solveLeastSquares } from './householder.js';
import { requireFinite } from './summary.js';

/** A fitted linear model. With as many points as coefficients there is no scatter to judge by: s is undefined. */
export interface Fit {
  readonly kind: 'fitted';
  readonly coefficients: readonly number[];
  /** Standard uncertainties of the coefficients: s * sqrt of the diagonal of (A'A)^-1. */
  readonly standardErrors: readonly number[] | undefined;
  /** Covariances of the coefficients. */
  readonly covariance: readonly (readonly number[])[] | undefined;
  /** Observed less fitted, in the order of the points. */
  readonly residuals: readonly number[];
  /** s = sqrt(sum of squared residuals / degrees of freedom). */
  readonly residualStandardDeviation: number | undefined;
  readonly degreesOfFreedom: number;
  /** Share of the squares that the model explains; about the mean with an intercept, about 0 without. */
  readonly rSquared: number | undefined;
}

/** Why there is no one best model. */
export interface Unfit {
  readonly kind: 'undetermined';
  readonly because: 'too-few-points' | 'dependent-columns';
}

/** A linear model: one list of values per coefficient, and whether a constant is added as the first coefficient. */
export interface LinearModel {
  readonly columns: readonly (readonly number[])[];
  readonly intercept: boolean;
}

/**
 * Fits y = [b0 +] b1 x1 + b2 x2 + ... by Householder QR in 32 digits. Throws a RangeError where lists differ in length or
 * hold a number that is not finite. Error: see NIST StRD in the tests.
 */
export function fitLinear(model: LinearModel, y: readonly number[]): Fit | Unfit {
  for (const column of [...model.columns, y]) requireFinite(column);
  if (model.columns.some((column) => column.length !== y.length)) {
    throw new RangeError(`Unexpected column length, expected ${y.length} values in each column`);
  }
  const given = model.columns.map((column) => column.map(doubled));
  return fitDoubled(model.intercept ? [y.map(() => ONE), ...given] : given, y, model.intercept);
}

/** Fits y = b0 + b1 x + ... + bd x^d for a whole degree d >= 0. */
export function fitPolynomial(x: readonly number[], y: readonly number[], degree: number): Fit | Unfit {
  if (!Number.isInteger(degree) || degree < 0)
    throw new RangeError(`Unexpected degree ${degree}, expected 0, 1, 2 ...`);
  requireFinite(x);
  requireFinite(y);
  if (x.length !== y.length) throw new RangeError(`Unexpected ${y.length} values, expected ${x.length}`);
  const columns: Doubled[][] = [x.map(() => ONE)];
  for (let power = 1; power <= degree; power += 1) {
    columns.push(columns[power - 1]!.map((value, i) => times(value, doubled(x[i]!))));
  }
  return fitDoubled(columns, y, true);
}

function fitDoubled(columns: readonly (readonly Doubled[])[], y: readonly number[], intercept: boolean): Fit | Unfit {
  if (columns.length === 0 || y.length < columns.length) return { kind: 'undetermined', because: 'too-few-points' };
  const observed = y.map(doubled);
  const solution = solveLeastSquares(columns, observed);
  if (solution === undefined) return { kind: 'undetermined', because: 'dependent-columns' };
  const degreesOfFreedom = y.length - columns.length;
  const rest = dotDoubled(solution.residuals, solution.residuals);
  const variance = degreesOfFreedom > 0 ? over(rest, doubled(degreesOfFreedom)) : undefined;
  const covariance =
    variance && solution.inverseNormal.map((row) => row.map((entry) => single(times(entry, variance))));
  return {
    kind: 'fitted',
    coefficients: solution.coefficients.map(single),
    standardErrors: covariance?.map((row, i) => Math.sqrt(Math.max(row[i]!, 0))),
    covariance,
    residuals: solution.residuals.map(single),
    residualStandardDeviation: variance && Math.sqrt(Math.max(single(variance), 0)),
    degreesOfFreedom,
    rSquared: shareExplained(observed, rest, intercept),
  };
}

function shareExplained(y: readonly Doubled[], rest: Doubled, intercept: boolean): number | undefined {
  const mean = intercept ? over(sumDoubled(y.map((v) => v.high)), doubled(y.length)) : doubled(0);
  const deviations = y.map((value) => minus(value, mean));
  const whole = dotDoubled(deviations, deviations);
  return single(whole) > 0 ? single(minus(ONE, over(rest, whole))) : undefined;
}

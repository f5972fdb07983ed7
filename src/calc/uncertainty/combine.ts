// Combines standard uncertainties to that of a result, after the GUM (JCGM 100:2008, clause 5 and annex G): first order,
// with correlation, and the second-order terms where they are given.

import { coverageFactor } from '../statistics/student.js';

/** One input: how much the result moves with it, its standard uncertainty, and how well that is known. */
export interface Contribution {
  /** Partial derivative of the result by this input, result unit per input unit. */
  readonly sensitivity: number;
  /** Standard uncertainty in the input's unit. */
  readonly uncertainty: number;
  /** Degrees of freedom; unlimited where left out. */
  readonly degrees?: number;
}

/** What ties two inputs together, by their places in the list. */
export interface Tie {
  readonly first: number;
  readonly second: number;
  /** Correlation coefficient, -1 to 1. */
  readonly correlation?: number;
  /** Mixed second derivative of the result by the two; adds (d u1 u2)^2, which matters where a sensitivity is 0. */
  readonly mixedDerivative?: number;
}

/** A combined standard uncertainty, in the unit of the result. */
export interface Combined {
  readonly uncertainty: number;
  /** |sensitivity| * uncertainty of each input, in order: what each brings. */
  readonly shares: readonly number[];
  /** Welch-Satterthwaite; undefined with correlated inputs, for which the formula is not made. */
  readonly degrees: number | undefined;
}

/**
 * u^2 = sum (c u)^2 + 2 sum c1 c2 u1 u2 r (JCGM 100:2008, eq. 10, 13, 16), plus mixed second-order terms (5.1.2, note).
 * Effective degrees of freedom v = u^4 / sum ((c u)^4 / v) (eq. G.2b). Throws a RangeError for a negative uncertainty, a
 * correlation beyond 1, or a tie of an input that is not there. Correlations that contradict each other throw too.
 */
export function combine(inputs: readonly Contribution[], ties: readonly Tie[] = []): Combined {
  for (const { uncertainty, degrees } of inputs) {
    if (!(uncertainty >= 0)) throw new RangeError(`Unexpected uncertainty ${uncertainty}, expected 0 or more`);
    if (degrees !== undefined && !(degrees > 0))
      throw new RangeError(`Unexpected degrees of freedom ${degrees}, expected more than 0`);
  }
  const terms = inputs.map((input) => input.sensitivity * input.uncertainty);
  const own = terms.reduce((sum, term) => sum + term * term, 0);
  const shared = ties.reduce((sum, tie) => sum + tieTerm(tie, inputs, terms), 0);
  const square = own + shared;
  if (square < -1e-9 * own)
    throw new RangeError('Unexpected correlations that contradict each other, expected u^2 >= 0');
  const uncertainty = Math.sqrt(Math.max(square, 0));
  const correlated = ties.some((tie) => (tie.correlation ?? 0) !== 0);
  return {
    uncertainty,
    shares: terms.map(Math.abs),
    degrees: correlated ? undefined : effectiveDegrees(uncertainty, inputs),
  };
}

function tieTerm(tie: Tie, inputs: readonly Contribution[], terms: readonly number[]): number {
  const { first, second, correlation = 0, mixedDerivative = 0 } = tie;
  const a = inputs[first];
  const b = inputs[second];
  if (a === undefined || b === undefined || first === second)
    throw new RangeError(`Unexpected tie of inputs ${first} and ${second}`);
  if (!(Math.abs(correlation) <= 1)) throw new RangeError(`Unexpected correlation ${correlation}, expected -1 to 1`);
  return 2 * terms[first]! * terms[second]! * correlation + (mixedDerivative * a.uncertainty * b.uncertainty) ** 2;
}

function effectiveDegrees(uncertainty: number, inputs: readonly Contribution[]): number {
  const sum = inputs.reduce((total, { sensitivity, uncertainty: u, degrees = Infinity }) => {
    return total + (uncertainty === 0 ? 0 : ((sensitivity * u) / uncertainty) ** 4 / degrees);
  }, 0);
  return sum === 0 ? Infinity : 1 / sum;
}

/** An expanded uncertainty and the factor it was made with. */
export interface Expanded {
  readonly expanded: number;
  readonly factor: number;
  /** The degrees of freedom that the factor was read for. */
  readonly degrees: number;
}

/**
 * U = t(level, v) u. v is truncated to a whole number, as JCGM 100:2008, G.4.1 advises, so U is never too small;
 * below 1 the factor for v itself is taken. `level` e.g. 0.95; 0.9545 for the level of two standard deviations.
 */
export function expand(uncertainty: number, level: number, degrees = Infinity): Expanded {
  const whole = degrees >= 1 && Number.isFinite(degrees) ? Math.floor(degrees) : degrees;
  const factor = coverageFactor(level, whole);
  return { expanded: factor * uncertainty, factor, degrees: whole };
}

/**
 * Covariance matrix of several results of the same inputs: J V J' (JCGM 102:2011, 6.2), `jacobian[i][j]` being the
 * derivative of result i by input j. Throws a RangeError where the sizes do not fit.
 */
export function propagate(
  jacobian: readonly (readonly number[])[],
  covariance: readonly (readonly number[])[],
): number[][] {
  if (
    covariance.some((row) => row.length !== covariance.length) ||
    jacobian.some((row) => row.length !== covariance.length)
  ) {
    throw new RangeError(`Unexpected matrix sizes, expected rows of ${covariance.length}`);
  }
  const half = jacobian.map((row) =>
    covariance.map((_, k) => row.reduce((sum, c, j) => sum + c * covariance[j]![k]!, 0)),
  );
  return half.map((left) => jacobian.map((row) => row.reduce((sum, c, k) => sum + left[k]! * c, 0)));
}

// Straight lines through points, with the uncertainty of slope, height and prediction (JCGM 100:2008, H.3).

import { type Fit, fitLinear, type Unfit } from './least-squares.js';

/** y = height + slope * (x - about). */
export interface Line {
  readonly kind: 'fitted';
  readonly about: number;
  readonly height: number;
  readonly slope: number;
  /** Standard uncertainties; undefined with two points, which leave nothing to judge by. */
  readonly heightError: number | undefined;
  readonly slopeError: number | undefined;
  /** Correlation of height and slope, -1 to 1. */
  readonly correlation: number | undefined;
  readonly residuals: readonly number[];
  readonly residualStandardDeviation: number | undefined;
  readonly degreesOfFreedom: number;
  readonly rSquared: number | undefined;
}

/**
 * Least-squares line through points, its height given at `about` (0 where the constant is wanted). Undetermined where
 * there are fewer than two points or all x are equal. Independent errors of equal size in y, none in x, are assumed.
 */
export function fitLine(x: readonly number[], y: readonly number[], about = 0): Line | Unfit {
  const fit = fitLinear({ columns: [x.map((value) => value - about)], intercept: true }, y);
  return fit.kind === 'fitted' ? lineFrom(fit, about) : fit;
}

/**
 * Least-squares line through the origin: slope = sum x y / sum x^2. `about` and `height` are 0 and certain.
 * Undetermined without a point off x = 0.
 */
export function fitThroughOrigin(x: readonly number[], y: readonly number[]): Line | Unfit {
  const fit = fitLinear({ columns: [x], intercept: false }, y);
  if (fit.kind !== 'fitted') return fit;
  return {
    ...common(fit),
    about: 0,
    height: 0,
    slope: fit.coefficients[0]!,
    heightError: fit.standardErrors && 0,
    slopeError: fit.standardErrors?.[0],
    correlation: fit.standardErrors && 0,
  };
}

function lineFrom(fit: Fit, about: number): Line {
  const [heightError, slopeError] = fit.standardErrors ?? [];
  const covariance = fit.covariance?.[0]?.[1];
  const scale = (heightError ?? 0) * (slopeError ?? 0);
  return {
    ...common(fit),
    about,
    height: fit.coefficients[0]!,
    slope: fit.coefficients[1]!,
    heightError,
    slopeError,
    correlation: covariance === undefined ? undefined : scale > 0 ? covariance / scale : 0,
  };
}

function common(fit: Fit) {
  const { kind, residuals, residualStandardDeviation, degreesOfFreedom, rSquared } = fit;
  return { kind, residuals, residualStandardDeviation, degreesOfFreedom, rSquared };
}

/** A value read off a line. `lineError` is the uncertainty of the line there, `readingError` that of one new reading. */
export interface Prediction {
  readonly value: number;
  readonly lineError: number | undefined;
  readonly readingError: number | undefined;
}

/**
 * The line's y at `x`: u^2(y) = u^2(height) + d^2 u^2(slope) + 2 d u(height) u(slope) r with d = x - about
 * (JCGM 100:2008, H.3.4); a new reading adds s^2.
 */
export function predict(line: Line, x: number): Prediction {
  const d = x - line.about;
  const value = line.height + line.slope * d;
  const { heightError: h, slopeError: b, correlation: r, residualStandardDeviation: s } = line;
  if (h === undefined || b === undefined || r === undefined || s === undefined) {
    return { value, lineError: undefined, readingError: undefined };
  }
  const square = Math.max(h * h + d * d * b * b + 2 * d * h * b * r, 0);
  return { value, lineError: Math.sqrt(square), readingError: Math.sqrt(square + s * s) };
}

/**
 * The x at which the line has `y`, with its first-order uncertainty for one reading: readingError / |slope|.
 * Undefined for a level line.
 */
export function readBack(
  line: Line,
  y: number,
): { readonly x: number; readonly error: number | undefined } | undefined {
  if (line.slope === 0) return undefined;
  const x = line.about + (y - line.height) / line.slope;
  const { readingError } = predict(line, x);
  return { x, error: readingError === undefined ? undefined : readingError / Math.abs(line.slope) };
}

// Mean, scatter and what follows from them, for a list of readings. Two passes with compensated sums, so that readings
// that differ only in their last digits keep their scatter.

import { type Doubled, doubled, minus, over, plus, single, sumDoubled, times, ZERO } from './doubled.js';

/** What a list of readings says. Everything is in the unit of the readings, but the autocorrelation, which is a ratio. */
export interface Summary {
  readonly count: number;
  readonly mean: number;
  readonly min: number;
  readonly max: number;
  /** Sample standard deviation, n - 1 below: the scatter of single readings. Undefined for one reading. */
  readonly standardDeviation: number | undefined;
  /** Standard deviation of the mean: s / sqrt(n) (JCGM 100:2008, 4.2.3). Undefined for one reading. */
  readonly standardError: number | undefined;
  /** Autocorrelation at lag 1; undefined where all readings are equal. Near 0 where each is independent of the last. */
  readonly lagOne: number | undefined;
}

/**
 * Summarises finite readings; undefined for none. Throws a RangeError for a reading that is not finite.
 * mean = sum x / n; s^2 = (sum (x - mean)^2 - (sum (x - mean))^2 / n) / (n - 1), the correction being for the rounded
 * mean (Chan, Golub, LeVeque, The American Statistician 37, 1983). Error: the digits of NIST StRD, see the tests.
 */
export function summarise(readings: readonly number[]): Summary | undefined {
  const count = readings.length;
  if (count === 0) return undefined;
  requireFinite(readings);
  const mean = over(sumDoubled(readings), doubled(count));
  const deviations = readings.map((x) => minus(doubled(x), mean));
  const squares = sumOf(deviations, (d) => times(d, d));
  const drift = sumOf(deviations, (d) => d);
  const spread = minus(squares, over(times(drift, drift), doubled(count)));
  const variance = single(spread) / (count - 1);
  const standardDeviation = count > 1 ? Math.sqrt(Math.max(variance, 0)) : undefined;
  return {
    count,
    mean: single(mean),
    min: Math.min(...readings),
    max: Math.max(...readings),
    standardDeviation,
    standardError: standardDeviation === undefined ? undefined : standardDeviation / Math.sqrt(count),
    lagOne: single(squares) > 0 ? single(over(lagProducts(deviations), squares)) : undefined,
  };
}

/** Throws a RangeError that names the first entry that is not a finite number. */
export function requireFinite(readings: readonly number[]): void {
  const at = readings.findIndex((x) => !Number.isFinite(x));
  if (at >= 0) throw new RangeError(`Unexpected reading ${readings[at]} at place ${at + 1}, expected a finite number`);
}

function sumOf(list: readonly Doubled[], term: (d: Doubled) => Doubled): Doubled {
  return list.reduce((sum, d) => plus(sum, term(d)), ZERO);
}

function lagProducts(deviations: readonly Doubled[]): Doubled {
  let sum = ZERO;
  for (let i = 1; i < deviations.length; i += 1) sum = plus(sum, times(deviations[i]!, deviations[i - 1]!));
  return sum;
}

/**
 * Correlation of two equally long lists, -1 to 1 (JCGM 100:2008, C.3.6); undefined for fewer than two pairs or where
 * one of the lists does not vary.
 */
export function correlation(x: readonly number[], y: readonly number[]): number | undefined {
  if (x.length !== y.length)
    throw new RangeError(`Unexpected ${y.length} readings, expected ${x.length} as in the other list`);
  if (x.length < 2) return undefined;
  requireFinite(x);
  requireFinite(y);
  const dx = deviate(x);
  const dy = deviate(y);
  let cross = ZERO;
  for (let i = 0; i < dx.length; i += 1) cross = plus(cross, times(dx[i]!, dy[i]!));
  const sizes = single(sumOf(dx, (d) => times(d, d))) * single(sumOf(dy, (d) => times(d, d)));
  return sizes > 0 ? Math.min(1, Math.max(-1, single(cross) / Math.sqrt(sizes))) : undefined;
}

function deviate(x: readonly number[]): readonly Doubled[] {
  const mean = over(sumDoubled(x), doubled(x.length));
  return x.map((value) => minus(doubled(value), mean));
}

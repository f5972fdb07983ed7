// Process capability: how much room limits leave around the scatter of a process. Judges no single reading.

import { chiSquareQuantile } from './chi-square.js';
import { normalQuantile } from './normal.js';
import { requireShare } from './require.js';

/** Cp and Cpk; Cp needs two limits. Both are infinite where nothing scatters inside the limits. */
export interface Capability {
  readonly potential: number | undefined;
  readonly actual: number;
}

/**
 * Cp = (high - low) / (6 s); Cpk = the lesser of (high - mean) / (3 s) and (mean - low) / (3 s), one-sided where only one
 * limit stands. Undefined without a limit or for a negative s; for s = 0 the sign of the room decides.
 * Source: D. C. Montgomery, Introduction to Statistical Quality Control, ch. 8. Assumes a normal, stable process.
 */
export function capability(
  process: { readonly mean: number; readonly standardDeviation: number },
  limits: { readonly low?: number; readonly high?: number },
): Capability | undefined {
  const { mean, standardDeviation: s } = process;
  const { low, high } = limits;
  if ((low === undefined && high === undefined) || !(s >= 0) || !Number.isFinite(mean)) return undefined;
  const rooms = [low === undefined ? Infinity : mean - low, high === undefined ? Infinity : high - mean];
  return {
    potential: low === undefined || high === undefined ? undefined : share(high - low, 6 * s),
    actual: share(Math.min(...rooms), 3 * s),
  };
}

function share(room: number, spread: number): number {
  if (spread > 0) return room / spread;
  return room === 0 ? 0 : room > 0 ? Infinity : -Infinity;
}

/** Two-sided bounds of an index. */
export interface IndexBounds {
  readonly low: number;
  readonly high: number;
}

/**
 * Bounds of Cp from `count` readings at a two-sided level: Cp sqrt(chi^2 / (n - 1)) with the chi-square of n - 1 degrees
 * that (1 + level) / 2, and (1 - level) / 2, lie above (NIST e-Handbook of Statistical Methods, 6.1.6). Undefined for fewer
 * than two readings or an index that is not finite. Assumes normal, independent readings.
 */
export function potentialBounds(potential: number, count: number, level: number): IndexBounds | undefined {
  if (!(count >= 2) || !Number.isFinite(potential)) return undefined;
  const degrees = count - 1;
  const beyond = (1 - requireShare(level, 'level')) / 2;
  const at = (above: number): number => potential * Math.sqrt(chiSquareQuantile(above, degrees) / degrees);
  return { low: at(1 - beyond), high: at(beyond) };
}

/**
 * Bounds of Cpk from `count` readings at a two-sided level: Cpk -+ z sqrt(1 / (9 n) + Cpk^2 / (2 (n - 1))) (NIST e-Handbook
 * of Statistical Methods, 6.1.6; A. F. Bissell, Applied Statistics 39, 1990). Undefined for fewer than two readings or an
 * index that is not finite. Assumes normal, independent readings, about 25 of them or more.
 */
export function actualBounds(actual: number, count: number, level: number): IndexBounds | undefined {
  if (!(count >= 2) || !Number.isFinite(actual)) return undefined;
  const z = normalQuantile((1 + requireShare(level, 'level')) / 2);
  const room = z * Math.sqrt(1 / (9 * count) + (actual * actual) / (2 * (count - 1)));
  return { low: actual - room, high: actual + room };
}

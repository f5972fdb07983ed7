// Whether a reading proves that a quantity is within limits: JCGM 106:2012, ISO 14253-1, ILAC-G8:09/2019. Risks of a
// single decision; risks over many units stand in global-risk.ts.

import type { DecisionRule, Verdict } from '../decision-rule.js';
import { normalQuantile, normalShare } from '../statistics/normal.js';

/** Closed limits, in the unit of the reading; an end that is left out is not asked for. */
export interface Bounds {
  readonly low?: number;
  readonly high?: number;
}

/** A value and its standard uncertainty, in one unit. */
export interface Measured {
  readonly value: number;
  readonly uncertainty: number;
}

/**
 * Probability that the quantity itself is within the tolerance: Phi((high - y)/u) - Phi((low - y)/u) (JCGM 106:2012,
 * 7.2-7.4; normal, nothing known beforehand). 0 or 1 for u = 0. Absolute error below 1e-13.
 */
export function conformityProbability(tolerance: Bounds, measured: Measured): number {
  const { low = -Infinity, high = Infinity } = tolerance;
  const { value, uncertainty: u } = measured;
  if (!(u >= 0) || Number.isNaN(value)) throw new RangeError(`Unexpected uncertainty ${u}, expected 0 or more`);
  if (low > high) return 0;
  if (u === 0) return low <= value && value <= high ? 1 : 0;
  const above = (high - value) / u;
  const below = (low - value) / u;
  // In the upper tail the difference is taken of the small shares, which keep their digits.
  return below > 0 ? normalShare(-below) - normalShare(-above) : normalShare(above) - normalShare(below);
}

/** Tolerance narrowed (guard > 0) or widened (guard < 0) at each limit that stands; low above high means nothing passes. */
export function guardLimits(tolerance: Bounds, guard: number): Bounds {
  return {
    ...(tolerance.low === undefined ? {} : { low: tolerance.low + guard }),
    ...(tolerance.high === undefined ? {} : { high: tolerance.high - guard }),
  };
}

/** Whether no reading lies within. */
export function isEmptyZone(zone: Bounds): boolean {
  return zone.low !== undefined && zone.high !== undefined && zone.low > zone.high;
}

function isWithin(zone: Bounds, value: number): boolean {
  return (zone.low === undefined || value >= zone.low) && (zone.high === undefined || value <= zone.high);
}

/**
 * Decides on a reading, limits included. `guard` (0 or more, unit of the reading) is not used by `simple`.
 * ISO 14253-1:2017 clause 5-7 for three zones, ILAC-G8:09/2019, 4.2 for the others.
 */
export function decide(
  rule: DecisionRule,
  tolerance: Bounds,
  reading: { readonly value: number; readonly guard: number },
): Verdict {
  const { value, guard } = reading;
  if (!(guard >= 0) || Number.isNaN(value))
    throw new RangeError(`Unexpected reading ${value} with guard band ${guard}`);
  if (rule === 'simple') return isWithin(tolerance, value) ? 'pass' : 'fail';
  const accepted = isWithin(guardLimits(tolerance, guard), value);
  if (accepted) return 'pass';
  if (rule === 'guarded') return 'fail';
  return isWithin(guardLimits(tolerance, -guard), value) ? 'unsure' : 'fail';
}

/**
 * Greatest probability that a passed quantity is outside one limit, met by a reading at the acceptance limit: 1 - Phi(k r),
 * with guard band r U and U = k u (ILAC-G8:09/2019, table 1). `specificRisk(1)` is 0.02275.
 */
export function specificRisk(multiplier: number, factor = 2): number {
  return normalShare(-multiplier * factor);
}

/**
 * The guard band, in multiples of u, that keeps the risk at one limit to `risk`: Phi^-1(1 - risk) (JCGM 106:2012, 8.3.2,
 * table 1). 0 < risk < 1. `guardForRisk(0.05)` is 1.644854.
 */
export function guardForRisk(risk: number): number {
  return -normalQuantile(risk);
}

/**
 * Test uncertainty ratio: tolerance width / (2 U) (ANSI/NCSL Z540.3-2006, 3.11). Undefined without both limits;
 * Infinity for U = 0.
 */
export function testUncertaintyRatio(tolerance: Bounds, expanded: number): number | undefined {
  if (tolerance.low === undefined || tolerance.high === undefined) return undefined;
  return expanded === 0 ? Infinity : (tolerance.high - tolerance.low) / (2 * expanded);
}

/** Measurement capability index C_m = width / (4 u) (JCGM 106:2012, 7.6.3): the ratio above where U = 2u. */
export function measurementCapability(tolerance: Bounds, uncertainty: number): number | undefined {
  return testUncertaintyRatio(tolerance, 2 * uncertainty);
}

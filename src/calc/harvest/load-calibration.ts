// Calibration of a mass display by weighed loads: one factor, a line through the origin, a straight line; how sure they
// are, which load spoils them, and which flows they speak for.

import { fitLine, fitThroughOrigin, type Line } from '../statistics/line.js';
import { requirePositive } from '../statistics/require.js';
import { coverageFactor } from '../statistics/student.js';

/** One load: what the display showed, what the scale said, and the mean mass flow while it was cut, if known. */
export interface WeighedLoad {
  readonly shown: number;
  readonly scale: number;
  readonly flow?: number;
}

function requireLoads(loads: readonly WeighedLoad[]): readonly WeighedLoad[] {
  if (loads.length === 0) throw new RangeError('Unexpected empty list, expected at least one load');
  for (const load of loads) {
    requirePositive(load.shown, 'shown mass');
    requirePositive(load.scale, 'scale mass');
    if (load.flow !== undefined) requirePositive(load.flow, 'flow');
  }
  return loads;
}

/** Error of a load as a share of the scale: (shown - scale) / scale; below 0 where the display shows too little. */
export function loadError(load: WeighedLoad): number {
  requireLoads([load]);
  return (load.shown - load.scale) / load.scale;
}

/** What the display is to be multiplied by, from all loads together: sum of scale masses / sum of shown ones. */
export function ratioOfSums(loads: readonly WeighedLoad[]): number {
  const sum = (pick: (load: WeighedLoad) => number) =>
    requireLoads(loads).reduce((total, load) => total + pick(load), 0);
  return sum((load) => load.scale) / sum((load) => load.shown);
}

/** The mean of each load's own factor scale / shown: every load counts alike, however small. */
export function meanFactor(loads: readonly WeighedLoad[]): number {
  return requireLoads(loads).reduce((total, load) => total + load.scale / load.shown, 0) / loads.length;
}

/** Least-squares factor through the origin: sum(shown scale) / sum(shown^2), with its uncertainty from two loads on. */
export function throughOriginFactor(loads: readonly WeighedLoad[]): Line {
  const fit = fitThroughOrigin(
    requireLoads(loads).map((load) => load.shown),
    loads.map((load) => load.scale),
  );
  // A positive shown mass always fixes the slope.
  if (fit.kind !== 'fitted') throw new Error(`Expected a fit of positive masses, got ${fit.because}`);
  return fit;
}

/** Straight line scale = height + slope shown; undefined for fewer than two loads or equal shown masses. */
export function loadLine(loads: readonly WeighedLoad[]): Line | undefined {
  const fit = fitLine(
    requireLoads(loads).map((load) => load.shown),
    loads.map((load) => load.scale),
  );
  return fit.kind === 'fitted' ? fit : undefined;
}

/** A load that the others do not bear out. */
export interface Spoiler {
  /** Its place in the list. */
  readonly place: number;
  /** Its residual in standard deviations of the other loads' fit, and the bound that one in twenty clean sets exceeds. */
  readonly deviation: number;
  readonly bound: number;
  /** The factor through the origin without it. */
  readonly factorWithout: number;
}

/**
 * The load that spoils a line through the origin, if one does: the largest externally studentised residual
 * e / (s_without sqrt(1 - h)) beyond the two-sided Student bound for 5 % shared over all loads (Bonferroni; R. D. Cook,
 * S. Weisberg, Residuals and Influence in Regression, 1982, 2.2). Needs four loads: with fewer the others say too little.
 */
export function findSpoiler(loads: readonly WeighedLoad[]): Spoiler | undefined {
  if (requireLoads(loads).length < 4) return undefined;
  const bound = coverageFactor(1 - 0.05 / loads.length, loads.length - 2);
  const judged = loads.map((_, place) => ({ place, bound, ...judge(loads, place) }));
  const worst = judged.reduce((most, one) => (one.deviation > most.deviation ? one : most));
  return worst.deviation > bound ? worst : undefined;
}

function judge(
  loads: readonly WeighedLoad[],
  place: number,
): { readonly deviation: number; readonly factorWithout: number } {
  const load = loads[place]!;
  const others = throughOriginFactor(loads.filter((_, other) => other !== place));
  const off = Math.abs(load.scale - others.slope * load.shown);
  // Deleted residual over its own scatter: s_without sqrt(1 + x^2 / sum of the others' x^2).
  const scatter = Math.hypot(others.residualStandardDeviation ?? 0, (others.slopeError ?? 0) * load.shown);
  // Rounding alone is no deviation.
  const least = 1e-12 * load.scale;
  return { deviation: off <= least ? 0 : off / Math.max(scatter, least), factorWithout: others.slope };
}

/** The flows that loads speak for; undefined where fewer than two have a flow. `ratio` is the greatest over the least. */
export function flowRange(
  loads: readonly WeighedLoad[],
): { readonly low: number; readonly high: number; readonly ratio: number } | undefined {
  const flows = requireLoads(loads).flatMap((load) => (load.flow === undefined ? [] : [load.flow]));
  if (flows.length < 2) return undefined;
  const low = Math.min(...flows);
  const high = Math.max(...flows);
  return { low, high, ratio: high / low };
}

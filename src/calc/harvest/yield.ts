// Yield from flow, what a wrong width does to area and yield, and delays as distances. SI: kg, m, s, kg/s, kg/m2.

import { requireNotNegative, requirePositive } from '../statistics/require.js';

/** Mass per area in kg/m2 from mass flow, width and speed: flow / (width speed). Width and speed above 0. */
export function yieldFromFlow(flow: number, width: number, speed: number): number {
  return requireNotNegative(flow, 'flow') / (requirePositive(width, 'width') * requirePositive(speed, 'speed'));
}

/** Mass flow in kg/s at a yield: yield width speed. */
export function flowFromYield(massPerArea: number, width: number, speed: number): number {
  return (
    requireNotNegative(massPerArea, 'yield') * requireNotNegative(width, 'width') * requireNotNegative(speed, 'speed')
  );
}

/** What logging one width while cutting another does; shares of the true values, 0.1 being 10 % too much. */
export interface WidthError {
  readonly areaError: number;
  readonly yieldError: number;
}

/**
 * Area is logged as W_logged / W_cut of the true one, yield as W_cut / W_logged: errors W_logged/W_cut - 1 and
 * W_cut/W_logged - 1, which are no mirror images. Both widths above 0.
 */
export function widthError(cut: number, logged: number): WidthError {
  requirePositive(cut, 'cut width');
  requirePositive(logged, 'logged width');
  return { areaError: (logged - cut) / cut, yieldError: (cut - logged) / logged };
}

/** A header set to full width that cuts fewer rows: the same with widths by rows. */
export function partialRowError(rows: number, rowsCut: number): WidthError {
  return widthError(rowsCut, rows);
}

/** Cut width of a pass that overlaps the last one: width - overlap, above 0. */
export function cutWidth(width: number, overlap: number): number {
  return requirePositive(requirePositive(width, 'width') - requireNotNegative(overlap, 'overlap'), 'cut width');
}

/** Yield from a count of ears in an area: ears rows kernels / (kernels a unit), per area; e.g. 90,000 kernels a bushel. */
export function yieldFromEars(
  sample: { readonly ears: number; readonly area: number },
  ear: { readonly rows: number; readonly kernels: number },
  kernelsPerUnit: number,
): number {
  const kernels =
    requireNotNegative(sample.ears, 'ears') *
    requireNotNegative(ear.rows, 'rows') *
    requireNotNegative(ear.kernels, 'kernels');
  return kernels / (requirePositive(kernelsPerUnit, 'kernels per unit') * requirePositive(sample.area, 'area'));
}

/** Distance driven between the cutting of grain and its measurement: speed times delay. */
export function delayDistance(speed: number, delay: number): number {
  return requireNotNegative(speed, 'speed') * requireNotNegative(delay, 'delay');
}

/** The delay that a distance stands for: distance / speed. */
export function delayFromDistance(distance: number, speed: number): number {
  return requireNotNegative(distance, 'distance') / requirePositive(speed, 'speed');
}

/**
 * How far along the row a step in yield is smeared when a delay is set that is wrong: speed |set - true|, and on which
 * side: `late` where the map shows the grain further along than it grew.
 */
export function delayShift(
  speed: number,
  delay: { readonly set: number; readonly true: number },
): { readonly distance: number; readonly side: 'early' | 'late' | 'none' } {
  const difference = requireNotNegative(delay.set, 'set delay') - requireNotNegative(delay.true, 'true delay');
  const side = difference === 0 ? 'none' : difference > 0 ? 'early' : 'late';
  return { distance: requireNotNegative(speed, 'speed') * Math.abs(difference), side };
}

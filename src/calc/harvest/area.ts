// Width, area, speed and field capacity. SI: m, m2, s, m/s, m2/s.

import { requireNotNegative, requirePositive, requireShare } from '../statistics/require.js';

/** Working width of a row header: rows times row spacing. */
export function widthOfRows(rows: number, spacing: number): number {
  if (!Number.isInteger(rows) || rows < 1)
    throw new RangeError(`Unexpected ${rows} rows, expected a whole number of 1 or more`);
  return rows * requirePositive(spacing, 'row spacing');
}

/** Area of a pass: width times distance. */
export function areaOfPass(width: number, distance: number): number {
  return requireNotNegative(width, 'width') * requireNotNegative(distance, 'distance');
}

/** Length of row, in m, that makes an area with so many rows of a spacing: area / (rows spacing). */
export function rowLengthForArea(area: number, rows: number, spacing: number): number {
  return requirePositive(area, 'area') / widthOfRows(rows, spacing);
}

/** Row spacing at which `length` of so many rows makes an area: finds what a printed length was made for. */
export function spacingForRowLength(area: number, rows: number, length: number): number {
  return requirePositive(area, 'area') / (widthOfRows(rows, 1) * requirePositive(length, 'row length'));
}

/** Time for a distance: d / v. */
export function timeForDistance(distance: number, speed: number): number {
  return requireNotNegative(distance, 'distance') / requirePositive(speed, 'speed');
}

/** Speed from a measured distance and time: d / t. */
export function speedFromTime(distance: number, time: number): number {
  return requireNotNegative(distance, 'distance') / requirePositive(time, 'time');
}

/**
 * Effective field capacity in m2/s: speed times width times field efficiency (0 to 1) (ASAE EP496.3, 5.1). In the units
 * of the trade: ac/h = mph ft E / 8.25, ha/h = km/h m E / 10.
 */
export function fieldCapacity(speed: number, width: number, efficiency = 1): number {
  return (
    requireNotNegative(speed, 'speed') *
    requireNotNegative(width, 'width') *
    requireShare(efficiency, 'field efficiency')
  );
}

/** Passes for a field of a width, each overlapping the last: the last one may be partial, `lastShare` of a full one. */
export function passesForField(
  fieldWidth: number,
  width: number,
  overlap = 0,
): { readonly passes: number; readonly lastShare: number } {
  const useful = requirePositive(width - requireNotNegative(overlap, 'overlap'), 'width less overlap');
  const count = requirePositive(fieldWidth, 'field width') / useful;
  // A count that is whole but for rounding is whole.
  const whole = Math.round(count);
  if (Math.abs(count - whole) < 1e-9 * count && whole > 0) return { passes: whole, lastShare: 1 };
  return { passes: Math.ceil(count), lastShare: count - Math.floor(count) };
}

/** Turning speed in rev/s of a reel whose edge moves `ratio` times as fast as the ground: ratio v / (pi D). */
export function reelSpeed(speed: number, diameter: number, ratio: number): number {
  return (
    (requireNotNegative(ratio, 'reel ratio') * requireNotNegative(speed, 'speed')) /
    (Math.PI * requirePositive(diameter, 'reel diameter'))
  );
}

/** Edge speed of a reel over ground speed: pi D n / v. */
export function reelRatio(turns: number, diameter: number, speed: number): number {
  return (
    (Math.PI * requirePositive(diameter, 'reel diameter') * requireNotNegative(turns, 'reel speed')) /
    requirePositive(speed, 'speed')
  );
}

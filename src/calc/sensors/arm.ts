// Arms that turn about a pivot: height against angle, and what a straight line between two taught points makes of an arc.
// Lengths in m, angles in rad, level is 0.

import { requirePositive } from '../statistics/require.js';
import { linearOutput } from './ratiometric.js';

const QUARTER = Math.PI / 2;

function requireAngle(angle: number): number {
  if (!(Math.abs(angle) <= QUARTER))
    throw new RangeError(`Unexpected angle ${angle} rad, expected one within a quarter turn of level`);
  return angle;
}

/** Height of the arm's end above its pivot: L sin(angle). Domain: within a quarter turn of level. */
export function armHeight(length: number, angle: number): number {
  return requirePositive(length, 'arm length') * Math.sin(requireAngle(angle));
}

/** Change of height between two angles: L (sin to - sin from). */
export function armLift(length: number, from: number, to: number): number {
  return armHeight(length, to) - armHeight(length, from);
}

/** Angle of an arm whose end is at a height: asin(h / L), for |h| <= L. */
export function armAngle(length: number, height: number): number {
  if (!(Math.abs(height) <= requirePositive(length, 'arm length'))) {
    throw new RangeError(`Unexpected height ${height} m of an arm of ${length} m, expected one within its length`);
  }
  return Math.asin(height / length);
}

/** Height per angle at an angle, m/rad: L cos(angle). */
export function armSensitivity(length: number, angle: number): number {
  return requirePositive(length, 'arm length') * Math.cos(requireAngle(angle));
}

/**
 * Height that one step of the reading stands for: L cos(angle) step / sensitivity, the step in V, the sensor's
 * sensitivity in V/rad (other than 0).
 */
export function heightPerStep(
  arm: { readonly length: number; readonly angle: number },
  sensor: { readonly step: number; readonly sensitivity: number },
): number {
  return (
    (armSensitivity(arm.length, arm.angle) * requirePositive(sensor.step, 'step')) /
    requirePositive(Math.abs(sensor.sensitivity), 'sensitivity')
  );
}

/** An arm taught at two angles, with a straight line in between. */
export interface TaughtArm {
  readonly length: number;
  readonly from: number;
  readonly to: number;
}

/** True height less the straight line through the two taught points, at an angle. 0 at both. */
export function twoPointError({ length, from, to }: TaughtArm, angle: number): number {
  const line = {
    from: { input: from, output: armHeight(length, from) },
    to: { input: to, output: armHeight(length, to) },
  };
  return armHeight(length, angle) - linearOutput(line, angle);
}

/**
 * Where between the two taught angles the line errs most, and by how much, signed. The error turns where
 * cos(angle) = (sin to - sin from) / (to - from), at one angle on each side of level; the worse one that is between them.
 */
export function worstTwoPointError(arm: TaughtArm): { readonly angle: number; readonly error: number } {
  const { from, to } = arm;
  if (from === to) throw new RangeError(`Unexpected second angle ${to} rad, expected one other than the first`);
  const slope = (Math.sin(requireAngle(to)) - Math.sin(requireAngle(from))) / (to - from);
  const turning = Math.acos(Math.min(1, Math.max(-1, slope)));
  const within = [turning, -turning].filter((angle) => angle >= Math.min(from, to) && angle <= Math.max(from, to));
  const errors = within.map((angle) => ({ angle, error: twoPointError(arm, angle) }));
  return errors.reduce((worst, one) => (Math.abs(one.error) > Math.abs(worst.error) ? one : worst), {
    angle: from,
    error: 0,
  });
}

// Limits worked out for one rig: exact ends in base units, closed, either end may be missing.

import type { Enclosure, Rational } from './rational.js';
import { compare, subtract } from './rational.js';
import type { Unit } from './unit-type.js';

/**
 * A closed range of allowed values. Ends are in coherent base units of `unit`'s dimension (temperature points in
 * kelvin, angles in revolutions). `unit` and `resolution` say how it was written, so that it is shown likewise.
 */
export interface Limits {
  readonly low?: Rational;
  readonly high?: Rational;
  readonly nominal?: Rational;
  readonly unit: Unit;
  /** The unit of the last written digit, in `unit`: the resolution the author chose. */
  readonly resolution: Rational;
}

/** Both ends of limits as a range; undefined where one end is missing. */
export function enclosureOf(limits: Limits): Enclosure | undefined {
  return limits.low && limits.high ? { low: limits.low, high: limits.high } : undefined;
}

/**
 * Whether a base value keeps the limits; the ends belong to them. Compared as read, never rounded first (the absolute
 * method of ASTM E29).
 */
export function holdsWithin(limits: Limits, value: Rational): boolean {
  return (!limits.low || compare(limits.low, value) <= 0) && (!limits.high || compare(value, limits.high) <= 0);
}

/** Whether every value that keeps `inner` keeps `outer`. */
export function liesWithin(inner: Limits, outer: Limits): boolean {
  const low = !outer.low || (inner.low !== undefined && compare(outer.low, inner.low) <= 0);
  return low && (!outer.high || (inner.high !== undefined && compare(inner.high, outer.high) <= 0));
}

/** Whether limits hold exactly one value: a plain number. */
export function isSingle(limits: Limits): boolean {
  return limits.low !== undefined && limits.high !== undefined && compare(limits.low, limits.high) === 0;
}

/** How far two limits lie apart, in base units; undefined for one-sided limits. */
export function toleranceOf(limits: Limits): Rational | undefined {
  return limits.low && limits.high ? subtract(limits.high, limits.low) : undefined;
}

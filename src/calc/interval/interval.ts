// Bare intervals of real numbers after IEEE Std 1788-2015 (set-based flavour): closed, empty or unbounded.
// Only what an interval is and how two of them lie; arithmetic stands in arithmetic.ts and elementary.ts.

import { addUp } from './rounding.js';

/**
 * The set of all real x with low <= x <= high. An unbounded end is an infinity, which is never itself a member.
 * The empty set is `EMPTY` (low = Infinity, high = -Infinity); ask `isEmpty` before reading its ends. No end is ever NaN.
 */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** The empty set: what an operation gives where nothing of its domain is left. */
export const EMPTY: Interval = Object.freeze({ low: Infinity, high: -Infinity });

/** All real numbers. */
export const ENTIRE: Interval = Object.freeze({ low: -Infinity, high: Infinity });

/**
 * The interval from `low` to `high`, ends included. Throws a RangeError where these bound no real number (NaN, the
 * ends exchanged, or both at the same infinity), for that is a slip of the caller. `interval(1, 2)` holds 1.5.
 */
export function interval(low: number, high: number): Interval {
  if (!(low <= high) || low === Infinity || high === -Infinity) {
    throw new RangeError(`Unexpected ends ${low} and ${high}, expected low <= high with a real number between`);
  }
  return { low, high };
}

/** The interval that holds `x` alone; throws a RangeError unless `x` is finite. */
export function point(x: number): Interval {
  return interval(x, x);
}

/** Whether no number is in `x`. */
export function isEmpty(x: Interval): boolean {
  return x.low > x.high;
}

/** Whether every real number is in `x`. */
export function isEntire(x: Interval): boolean {
  return x.low === -Infinity && x.high === Infinity;
}

/** Whether both ends are finite and there is a member (IEEE 1788: a common interval). */
export function isBounded(x: Interval): boolean {
  return Number.isFinite(x.low) && Number.isFinite(x.high);
}

/** Whether exactly one number is in `x`. */
export function isSingle(x: Interval): boolean {
  return x.low === x.high;
}

/** Whether the real number `value` is in `x`; an infinity or NaN is in none. */
export function contains(x: Interval, value: number): boolean {
  return Number.isFinite(value) && x.low <= value && value <= x.high;
}

/** Whether the same numbers are in both. */
export function isEqual(x: Interval, y: Interval): boolean {
  return x.low === y.low && x.high === y.high;
}

/** Whether every member of `x` is in `y`; the empty set is inside all. */
export function isSubset(x: Interval, y: Interval): boolean {
  return isEmpty(x) || (y.low <= x.low && x.high <= y.high);
}

/** Whether every member of `x` is in `y` with room on both sides (an infinite end needs none). */
export function isInterior(x: Interval, y: Interval): boolean {
  if (isEmpty(x)) return true;
  return (y.low < x.low || y.low === -Infinity) && (x.high < y.high || y.high === Infinity) && !isEmpty(y);
}

/** Whether no number is in both. */
export function isDisjoint(x: Interval, y: Interval): boolean {
  return isEmpty(intersection(x, y));
}

/** The numbers that are in both. */
export function intersection(x: Interval, y: Interval): Interval {
  const low = Math.max(x.low, y.low);
  const high = Math.min(x.high, y.high);
  return low <= high ? { low, high } : EMPTY;
}

/** The least interval that holds both (IEEE 1788: convexHull). */
export function hull(x: Interval, y: Interval): Interval {
  return { low: Math.min(x.low, y.low), high: Math.max(x.high, y.high) };
}

/** high - low, rounded up; Infinity for an unbounded interval, 0 for the empty one (which has no width). */
export function width(x: Interval): number {
  return isEmpty(x) ? 0 : addUp(x.high, -x.low);
}

/**
 * A finite number in the middle: the rounded midpoint, 0 for all numbers, the largest finite number on the open side
 * of a half line (IEEE 1788, 12.12.8). Throws a RangeError for the empty set, which has no middle.
 */
export function mid(x: Interval): number {
  if (isEmpty(x)) throw new RangeError('Unexpected empty interval, expected one with a middle');
  if (isEntire(x)) return 0;
  if (x.low === -Infinity) return -Number.MAX_VALUE;
  if (x.high === Infinity) return Number.MAX_VALUE;
  const sum = x.low + x.high;
  return Number.isFinite(sum) ? halfWithin(x, sum) : x.low / 2 + x.high / 2;
}

function halfWithin(x: Interval, sum: number): number {
  // Halving rounds among the subnormals, and may there leave a one-point interval.
  return Math.min(Math.max(sum / 2, x.low), x.high) + 0;
}

/** The largest absolute value of a member, Infinity where unbounded, 0 for the empty set. */
export function magnitude(x: Interval): number {
  return isEmpty(x) ? 0 : Math.max(Math.abs(x.low), Math.abs(x.high));
}

/** The least absolute value of a member, 0 for the empty set. */
export function mignitude(x: Interval): number {
  if (isEmpty(x) || (x.low <= 0 && x.high >= 0)) return 0;
  return Math.min(Math.abs(x.low), Math.abs(x.high));
}

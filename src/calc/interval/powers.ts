// Powers of intervals: whole exponents exactly over all bases, others over bases that are not negative.

import { bitLength, floatDown, floatUp, toDyadic } from './fixed.js';
import { EMPTY, type Interval, isEmpty } from './interval.js';
import { powAt } from './points.js';

/**
 * All n-th powers for a whole `n` (a safe integer, else a RangeError). `pown(x, 0)` is 1 for every non-empty `x`;
 * a negative `n` leaves out 0. `pown(interval(-2, 3), 3)` is -8 to 27.
 */
export function pown(x: Interval, n: number): Interval {
  if (!Number.isSafeInteger(n)) throw new RangeError(`Unexpected exponent ${n}, expected a whole number`);
  if (isEmpty(x)) return EMPTY;
  if (n === 0) return { low: 1, high: 1 };
  if (n % 2 === 0) return evenPower(x, n);
  return n > 0 ? { low: powerAt(x.low, n).low, high: powerAt(x.high, n).high } : oddReciprocal(x, n);
}

function evenPower(x: Interval, n: number): Interval {
  const least = x.low <= 0 && x.high >= 0 ? 0 : Math.min(Math.abs(x.low), Math.abs(x.high));
  const most = Math.max(Math.abs(x.low), Math.abs(x.high));
  if (n > 0) return { low: powerAt(least, n).low, high: powerAt(most, n).high };
  return most === 0 ? EMPTY : { low: powerAt(most, n).low, high: powerAt(least, n).high };
}

/** Odd negative exponents: two falling branches, with a jump at 0. */
function oddReciprocal(x: Interval, n: number): Interval {
  if (x.low === 0 && x.high === 0) return EMPTY;
  if (x.low < 0 && x.high > 0) return { low: -Infinity, high: Infinity };
  if (x.low >= 0) return { low: powerAt(x.high, n).low, high: powerAt(x.low, n).high };
  const mirrored = oddReciprocal({ low: 0 - x.high, high: 0 - x.low }, n);
  return { low: 0 - mirrored.high, high: 0 - mirrored.low };
}

/** x^n between two floats, for any end x; 0 and the infinities by their limits. */
function powerAt(x: number, n: number): Interval {
  if (x < 0) {
    const size = powerAt(-x, n);
    return n % 2 === 0 ? size : { low: 0 - size.high, high: 0 - size.low };
  }
  if (x === 0 || x === Infinity) {
    const limit = (x === 0) === n > 0 ? 0 : Infinity;
    return { low: limit, high: limit };
  }
  const { fraction, exponent } = toDyadic(x);
  const power = Math.abs(n);
  const bound = raise({ low: fraction, high: fraction, exponent: 0 }, power);
  const scale = bound.exponent + exponent * power;
  if (n > 0) return { low: floatDown(bound.low, scale), high: floatUp(bound.high, scale) };
  const places = bitLength(bound.high) + KEPT;
  const one = 1n << BigInt(places);
  return {
    low: floatDown(one / bound.high, -scale - places),
    high: floatUp(one / bound.low + spare(one, bound.low), -scale - places),
  };
}

/** 1 where the division of `one` leaves a rest, so that its quotient is rounded up. */
function spare(one: bigint, by: bigint): bigint {
  return one % by === 0n ? 0n : 1n;
}

interface Bound {
  readonly low: bigint;
  readonly high: bigint;
  readonly exponent: number;
}

const KEPT = 256;

/** fraction^n by squaring, the low side rounded down and the high side up once they outgrow KEPT bits. */
function raise(base: Bound, n: number): Bound {
  if (n === 1) return base;
  const half = raise(base, Math.floor(n / 2));
  const square = times(half, half);
  return n % 2 === 0 ? square : times(square, base);
}

function times(x: Bound, y: Bound): Bound {
  const low = x.low * y.low;
  const high = x.high * y.high;
  const drop = Math.max(bitLength(high) - KEPT, 0);
  const places = BigInt(drop);
  return { low: low >> places, high: -(-high >> places), exponent: x.exponent + y.exponent + drop };
}

/**
 * All x^y with x > 0, and 0^y = 0 for y > 0 (IEEE 1788: pow). Other bases are left out; whole exponents of negative
 * bases are the business of `pown`. Rising or falling in each operand, so the corners of the box give the ends.
 */
export function pow(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y) || x.high < 0 || (x.high === 0 && y.high <= 0)) return EMPTY;
  if (x.high === 0) return { low: 0, high: 0 };
  const from = Math.max(x.low, 0);
  const corners = [
    cornerPower(from, y.low),
    cornerPower(from, y.high),
    cornerPower(x.high, y.low),
    cornerPower(x.high, y.high),
  ];
  return { low: Math.min(...corners.map((c) => c.low)), high: Math.max(...corners.map((c) => c.high)) };
}

/** x^y at a corner with x >= 0, by its limit where an end is 0 or infinite. */
function cornerPower(x: number, y: number): Interval {
  if (y === 0 || x === 1) return { low: 1, high: 1 };
  if (x === 0 || !Number.isFinite(x) || !Number.isFinite(y)) {
    const limit = x > 1 === y > 0 ? Infinity : 0;
    return { low: limit, high: limit };
  }
  return powAt(x, y);
}

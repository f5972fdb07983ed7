// The operations of IEEE Std 1788-2015 that need no series: each result holds every value that the operation takes
// on the operands, and its ends are the floats next to the true ones (equal to them where they are floats).

import { EMPTY, ENTIRE, type Interval, isEmpty } from './interval.js';
import { addDown, addUp, divDown, divUp, mulDown, mulUp, sqrtDown, sqrtUp, subDown, subUp } from './rounding.js';

/** All sums. `add(point(0.1), point(0.2))` is 0.3 to 0.30000000000000004. */
export function add(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y)) return EMPTY;
  return { low: addDown(x.low, y.low), high: addUp(x.high, y.high) };
}

/** All differences x - y. */
export function sub(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y)) return EMPTY;
  return { low: subDown(x.low, y.high), high: subUp(x.high, y.low) };
}

/** All negatives; exact. */
export function neg(x: Interval): Interval {
  return isEmpty(x) ? EMPTY : { low: 0 - x.high, high: 0 - x.low };
}

/** All products. An interval that is only 0 makes the product 0, even with an unbounded one. */
export function mul(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y)) return EMPTY;
  // one call for each end, whatever the signs are: an engine then keeps the whole product in its registers
  if (x.low >= 0) {
    const [low, high] = [y.low >= 0 ? x.low : x.high, y.high >= 0 ? x.high : x.low];
    return { low: mulDown(low, y.low), high: mulUp(high, y.high) };
  }
  if (x.high <= 0) {
    const [low, high] = [y.high >= 0 ? x.low : x.high, y.low >= 0 ? x.high : x.low];
    return { low: mulDown(low, y.high), high: mulUp(high, y.low) };
  }
  if (y.low >= 0) return { low: mulDown(x.low, y.high), high: mulUp(x.high, y.high) };
  if (y.high <= 0) return { low: mulDown(x.high, y.low), high: mulUp(x.low, y.low) };
  return {
    low: Math.min(mulDown(x.low, y.high), mulDown(x.high, y.low)),
    high: Math.max(mulUp(x.low, y.low), mulUp(x.high, y.high)),
  };
}

/**
 * All quotients x / y with y other than 0. Where 0 is inside `y` all numbers may come out; where it is an end of it,
 * a half line; where `y` is 0 alone, nothing.
 */
export function div(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y) || (y.low === 0 && y.high === 0)) return EMPTY;
  if (x.low === 0 && x.high === 0) return { low: 0, high: 0 };
  if (y.low < 0 && y.high > 0) return ENTIRE;
  return y.low >= 0 ? divByPositive(x, y) : divByPositive(neg(x), neg(y));
}

/** Quotients where `y` has no negative member; its low end may be 0. */
function divByPositive(x: Interval, y: Interval): Interval {
  const low = x.low >= 0 ? divDown(x.low, y.high) : y.low === 0 ? -Infinity : divDown(x.low, y.low);
  const high = x.high <= 0 ? divUp(x.high, y.high) : y.low === 0 ? Infinity : divUp(x.high, y.low);
  return { low, high };
}

/** All 1 / x with x other than 0. */
export function recip(x: Interval): Interval {
  return div({ low: 1, high: 1 }, x);
}

/** All squares: sharper than `mul(x, x)`, which forgets that both factors are one number. */
export function sqr(x: Interval): Interval {
  const size = abs(x);
  return isEmpty(x) ? EMPTY : { low: mulDown(size.low, size.low), high: mulUp(size.high, size.high) };
}

/** All square roots of members that are not negative. `sqrt(interval(-1, 4))` is 0 to 2. */
export function sqrt(x: Interval): Interval {
  if (isEmpty(x) || x.high < 0) return EMPTY;
  return { low: x.low <= 0 ? 0 : sqrtDown(x.low), high: sqrtUp(x.high) };
}

/** All absolute values; exact. */
export function abs(x: Interval): Interval {
  if (isEmpty(x)) return EMPTY;
  if (x.low >= 0) return x;
  if (x.high <= 0) return neg(x);
  return { low: 0, high: Math.max(0 - x.low, x.high) };
}

/** All the lesser ones of a member of `x` and one of `y`; exact. */
export function min(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y)) return EMPTY;
  return { low: Math.min(x.low, y.low), high: Math.min(x.high, y.high) };
}

/** All the greater ones of a member of `x` and one of `y`; exact. */
export function max(x: Interval, y: Interval): Interval {
  if (isEmpty(x) || isEmpty(y)) return EMPTY;
  return { low: Math.max(x.low, y.low), high: Math.max(x.high, y.high) };
}

/** All signs: -1, 0 or 1; exact. */
export function sign(x: Interval): Interval {
  return stepwise(x, Math.sign);
}

/** All members rounded down to whole numbers; exact. */
export function floor(x: Interval): Interval {
  return stepwise(x, Math.floor);
}

/** All members rounded up to whole numbers; exact. */
export function ceil(x: Interval): Interval {
  return stepwise(x, Math.ceil);
}

/** All members rounded towards 0 to whole numbers; exact. */
export function trunc(x: Interval): Interval {
  return stepwise(x, Math.trunc);
}

/** A function that never falls and is exact on floats. */
function stepwise(x: Interval, step: (value: number) => number): Interval {
  return isEmpty(x) ? EMPTY : { low: step(x.low) + 0, high: step(x.high) + 0 };
}

// Sums of two floats as one number of about 32 digits: what least squares needs so that no digit of the data is lost.
// Dekker 1971 and Knuth's two-sum; relative error of each operation below 2^-100 while nothing overflows or underflows.

/** The number high + low, with |low| at most half a unit in the last place of high. */
export interface Doubled {
  readonly high: number;
  readonly low: number;
}

/** Nothing. */
export const ZERO: Doubled = { high: 0, low: 0 };

/** One, exactly. */
export const ONE: Doubled = { high: 1, low: 0 };

/** A float, exactly. */
export function doubled(x: number): Doubled {
  return { high: x, low: 0 };
}

/** The nearest float, or the one beside it. */
export function single(x: Doubled): number {
  return x.high + x.low;
}

/** a + b of two floats, exactly. */
export function twoSum(a: number, b: number): Doubled {
  const high = a + b;
  const virtual = high - a;
  return { high, low: a - (high - virtual) + (b - virtual) };
}

/** a * b of two floats, exactly unless a factor is beyond 2^990 or the error below 2^-1074. */
export function twoProduct(a: number, b: number): Doubled {
  const high = a * b;
  const splitA = a * 134217729;
  const highA = splitA - (splitA - a);
  const lowA = a - highA;
  const splitB = b * 134217729;
  const highB = splitB - (splitB - b);
  const lowB = b - highB;
  return { high, low: lowA * lowB - (high - highA * highB - lowA * highB - highA * lowB) };
}

function renew(high: number, low: number): Doubled {
  const sum = high + low;
  return { high: sum, low: low - (sum - high) };
}

/** x + y. */
export function plus(x: Doubled, y: Doubled): Doubled {
  const high = twoSum(x.high, y.high);
  const low = twoSum(x.low, y.low);
  const first = renew(high.high, high.low + low.high);
  return renew(first.high, first.low + low.low);
}

/** -x, exactly. */
export function negate(x: Doubled): Doubled {
  return { high: -x.high, low: -x.low };
}

/** x - y. */
export function minus(x: Doubled, y: Doubled): Doubled {
  return plus(x, negate(y));
}

/** x * y. */
export function times(x: Doubled, y: Doubled): Doubled {
  const product = twoProduct(x.high, y.high);
  return renew(product.high, product.low + (x.high * y.low + x.low * y.high));
}

/** x / y for y other than 0: long division in three steps. */
export function over(x: Doubled, y: Doubled): Doubled {
  const first = x.high / y.high;
  const rest = minus(x, times(y, doubled(first)));
  const second = rest.high / y.high;
  const last = minus(rest, times(y, doubled(second))).high / y.high;
  return plus(renew(first, second), doubled(last));
}

/** The square root of x >= 0: one Newton step from the float root. */
export function root(x: Doubled): Doubled {
  if (x.high <= 0) return ZERO;
  const first = Math.sqrt(x.high);
  const rest = minus(x, twoProduct(first, first));
  return renew(first, rest.high / (2 * first));
}

/** The sum of floats, with about 32 digits kept on the way. */
export function sumDoubled(values: readonly number[]): Doubled {
  let sum = ZERO;
  for (const value of values) sum = plus(sum, doubled(value));
  return sum;
}

/** The sum of products of two lists of the same length. */
export function dotDoubled(x: readonly Doubled[], y: readonly Doubled[]): Doubled {
  let sum = ZERO;
  for (let i = 0; i < x.length; i += 1) sum = plus(sum, times(x[i]!, y[i]!));
  return sum;
}

// The standard normal distribution: the share above a value, and the value for a share.

const SQRT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution at z: exp(-z^2/2)/sqrt(2 pi). */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / SQRT_TWO_PI;
}

/**
 * Share of the standard normal distribution up to z, 0 to 1. Domain: any z, the infinities too; NaN throws a RangeError.
 * Relative error below 1e-13. G. Marsaglia, Journal of Statistical Software 11(4), 2004, near the middle; Laplace's
 * continued fraction (Abramowitz, Stegun 26.2.14) in the tails. `normalShare(1.4)` is 0.919243.
 */
export function normalShare(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('Unexpected NaN, expected a number of standard deviations');
  if (z < -2) return tail(-z);
  return z > 2 ? 1 - tail(z) : 0.5 + normalDensity(z) * oddSum(z);
}

/** z + z^3/3 + z^5/15 + ...: each term the last times z^2 / k. */
function oddSum(z: number): number {
  let term = z;
  let sum = 0;
  for (let k = 3; Math.abs(term) > 1e-18 * Math.abs(sum); k += 2) {
    sum += term;
    term *= (z * z) / k;
  }
  return sum;
}

/** Share above z, for z >= 2: density / (z + 1/(z + 2/(z + 3/(z + ...)))). */
function tail(z: number): number {
  if (z === Infinity) return 0;
  let fraction = z;
  for (let k = 200; k > 0; k -= 1) fraction = z + k / fraction;
  return normalDensity(z) / fraction;
}

/**
 * The z below which the share p lies: the inverse of `normalShare`, 0 < p < 1, else a RangeError. Relative error below
 * 1e-13, where p itself is known so well. Newton's method on the logarithm of the tail, which is concave, so it cannot
 * run away. `normalQuantile(0.95)` is 1.644854.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`Unexpected share ${p}, expected one between 0 and 1`);
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0.5) return 0;
  let z = -Math.sqrt(-2 * Math.log(p)) / 1.2;
  for (let round = 0; round < 50; round += 1) {
    const share = normalShare(z);
    const step = (Math.log(share / p) * share) / normalDensity(z);
    z -= step;
    if (Math.abs(step) <= 1e-15 * Math.abs(z)) break;
  }
  return z;
}

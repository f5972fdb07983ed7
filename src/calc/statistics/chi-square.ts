// The chi-square distribution for whole degrees of freedom: what bounds on a standard deviation are read from.

import { normalShare } from './normal.js';

/**
 * Share of the chi-square distribution above x, for x >= 0 and a whole number of degrees >= 1; else a RangeError. Finite
 * sums (Abramowitz, Stegun 26.4.4 and 26.4.5), each term by its logarithm, so that no number of degrees is too large.
 * Relative error below 1e-10 for up to 10000 degrees. `chiSquareAbove(18.307, 10)` is 0.05.
 */
export function chiSquareAbove(x: number, degrees: number): number {
  if (!(x >= 0) || !Number.isInteger(degrees) || degrees < 1) {
    throw new RangeError(
      `Unexpected chi-square ${x} with ${degrees} degrees of freedom, expected 0 or more with 1 or more whole degrees`,
    );
  }
  if (x === 0) return 1;
  if (x === Infinity) return 0;
  const isOdd = degrees % 2 === 1;
  const root = Math.sqrt(x);
  // the first term of the sum: density at the root times it, or exp(-x/2) of two degrees
  let term = isOdd ? Math.log(root) - Math.log(Math.sqrt(2 * Math.PI)) - x / 2 : -x / 2;
  let sum = 0;
  for (let k = isOdd ? 1 : 0; k <= degrees - 2; k += 2) {
    sum += Math.exp(term);
    term += Math.log(x / (k + 2));
  }
  // an odd number of degrees begins with the two tails of the normal distribution
  return isOdd ? 2 * normalShare(-root) + 2 * sum : sum;
}

/**
 * The x that the share `above` lies above: the inverse of `chiSquareAbove`, 0 < above < 1, else a RangeError. Relative
 * error below 1e-10. `chiSquareQuantile(0.05, 10)` is 18.307.
 */
export function chiSquareQuantile(above: number, degrees: number): number {
  if (!(above > 0 && above < 1)) throw new RangeError(`Unexpected share ${above}, expected one between 0 and 1`);
  let high = Math.max(degrees, 1);
  while (chiSquareAbove(high, degrees) > above) high *= 2;
  let low = 0;
  for (let round = 0; round < 200 && high - low > 1e-14 * high; round += 1) {
    const middle = low + (high - low) / 2;
    if (chiSquareAbove(middle, degrees) > above) low = middle;
    else high = middle;
  }
  return low + (high - low) / 2;
}

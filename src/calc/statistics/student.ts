// Student's t distribution: what coverage factors are read from where few readings stand behind an uncertainty.

import { normalDensity, normalQuantile, normalShare } from './normal.js';

const SQRT_PI = 1.772453850905516;

/**
 * Share of Student's distribution beyond t on both sides together, for t >= 0 and degrees of freedom > 0 (fractions
 * and Infinity too). I_x(v/2, 1/2) with x = v/(v + t^2) (Abramowitz, Stegun 26.7.1). Relative error below 1e-11.
 */
export function studentBeyond(t: number, degrees: number): number {
  if (!(t >= 0) || !(degrees > 0)) {
    throw new RangeError(
      `Unexpected t ${t} with ${degrees} degrees of freedom, expected t >= 0 and more than 0 degrees`,
    );
  }
  if (t === Infinity) return 0;
  if (degrees > 1e8) return 2 * (normalShare(-t) + (normalDensity(t) * (t * t * t + t)) / (4 * degrees));
  const square = t * t;
  const x = degrees / (degrees + square);
  const rest = square / (degrees + square);
  const a = degrees / 2;
  // x^a (1 - x)^(1/2); by the logarithm, for x is next to 1 where a is large.
  const front = Math.exp(-a * Math.log1p(square / degrees)) * Math.sqrt(rest);
  // Whichever side the fraction converges on quickly.
  return x < (a + 1) / (a + 2.5) ? betaShare({ x, front, a, b: 0.5 }) : 1 - betaShare({ x: rest, front, a: 0.5, b: a });
}

/**
 * The coverage factor: t with the share `level` between -t and t (JCGM 100:2008, table G.2). 0 < level < 1, degrees > 0;
 * else a RangeError. Relative error below 1e-10. `coverageFactor(0.99, 16)` is 2.92.
 */
export function coverageFactor(level: number, degrees: number): number {
  if (!(level > 0 && level < 1) || !(degrees > 0)) {
    throw new RangeError(
      `Unexpected level ${level} with ${degrees} degrees of freedom, expected 0 < level < 1, degrees > 0`,
    );
  }
  const beyond = 1 - level;
  if (degrees > 1e4) return fromNormal(-normalQuantile(beyond / 2), degrees);
  let high = 1;
  while (studentBeyond(high, degrees) > beyond && high < 1e150) high *= 2;
  let low = 0;
  for (let round = 0; round < 200 && high - low > 1e-14 * high; round += 1) {
    const middle = low + (high - low) / 2;
    if (studentBeyond(middle, degrees) > beyond) low = middle;
    else high = middle;
  }
  return low + (high - low) / 2;
}

/** t from the normal z of the same share, for many degrees (Abramowitz, Stegun 26.7.5). */
function fromNormal(z: number, degrees: number): number {
  const q = z * z;
  const first = (q + 1) / 4;
  const second = ((5 * q + 16) * q + 3) / 96;
  const third = (((3 * q + 19) * q + 17) * q - 15) / 384;
  return z * (1 + (first + (second + third / degrees) / degrees) / degrees);
}

interface Beta {
  readonly x: number;
  /** x^a (1 - x)^b. */
  readonly front: number;
  readonly a: number;
  readonly b: number;
}

/** The regularised incomplete beta function with one parameter 1/2, by its continued fraction (Abramowitz, Stegun 26.5.8). */
function betaShare({ x, front, a, b }: Beta): number {
  if (x === 0) return 0;
  const whole = SQRT_PI / gammaRatio(a === 0.5 ? b : a);
  let fraction = 1;
  // Converges in about sqrt(a) steps.
  for (let k = 400 + 8 * Math.ceil(Math.sqrt(Math.max(a, b))); k > 0; k -= 1) {
    const m = k >> 1;
    const odd = (k & 1) === 1;
    const top = odd ? -(a + m) * (a + b + m) * x : m * (b - m) * x;
    fraction = 1 + top / ((a + k - 1) * (a + k)) / fraction;
  }
  return front / (a * whole * fraction);
}

/** gamma(a + 1/2) / gamma(a): by its asymptotic series once a is above 30, to which the recurrence leads. */
function gammaRatio(a: number): number {
  let factor = 1;
  let shifted = a;
  for (; shifted < 30; shifted += 1) factor *= shifted / (shifted + 0.5);
  const inverse = 1 / shifted;
  const square = inverse * inverse;
  const series =
    inverse * (-1 / 8 + square * (1 / 192 + square * (-1 / 640 + square * (17 / 14336 - (square * 31) / 18432))));
  return factor * Math.sqrt(shifted) * Math.exp(series);
}

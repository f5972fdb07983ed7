// The elementary functions at one float, as the two floats around the true value: nothing of Math is asked.
// Precision is 200 bits beyond the leading bit of the result, which leaves ends that are next to the true value.

import { bitLength, type Dyadic, floatDown, floatUp, outward, shift, toDyadic, toFixed } from './fixed.js';
import type { Interval } from './interval.js';
import { divUp } from './rounding.js';
import { atanFixed, expFixed, ln2Fixed, logFixed, MARGIN, piFixed, rootFixed, sinCosFixed } from './series.js';

const BITS = 200;

/** e^x for a finite x; x = k ln 2 + r. The error of r is at most 2 |k| + 1 < 2^12 units. */
export function expAt(x: number): Interval {
  if (x === 0) return { low: 1, high: 1 };
  if (x > 710) return { low: Number.MAX_VALUE, high: Infinity };
  if (x < -746) return { low: 0, high: Number.MIN_VALUE };
  return expOf(toFixed(toDyadic(x), BITS), x > 0);
}

/** e^(argument / 2^BITS), the argument at most 2^12 units too small and its sign known. */
function expOf(argument: bigint, positive: boolean): Interval {
  const ln2 = ln2Fixed(BITS);
  let k = argument / ln2;
  if (argument < 0n) k -= 1n;
  const value = expFixed(argument - k * ln2, BITS);
  const exponent = Number(k) - BITS;
  const low = floatDown(value - MARGIN, exponent);
  const high = floatUp(value + MARGIN, exponent);
  return positive ? { low: Math.max(low, 1), high } : { low, high: Math.min(high, 1) };
}

/** ln x for a finite x > 0. */
export function logAt(x: number): Interval {
  if (x === 1) return { low: 0, high: 0 };
  const value = logOf(toDyadic(x), BITS);
  return outward(value - MARGIN, value + MARGIN, BITS);
}

/** ln x * 2^bits, off by less than MARGIN: x = m 2^k with 3/4 <= m < 3/2, so that nothing cancels; k costs 2 |k| units. */
function logOf(x: Dyadic, bits: number): bigint {
  const length = bitLength(x.fraction);
  const half = 1n << BigInt(length - 1);
  const over = 2n * x.fraction >= 3n * half;
  const bottom = over ? 2n * half : half;
  const k = x.exponent + length - 1 + (over ? 1 : 0);
  return logFixed(x.fraction, bottom, bits) + BigInt(k) * ln2Fixed(bits);
}

/** An angle as whole quarter turns and the rest, 0 <= rest < pi/2, off by less than 2^3 units of 2^-bits. */
export interface Reduced {
  /** The angle itself. */
  readonly x: number;
  readonly quarters: bigint;
  readonly rest: bigint;
  readonly bits: number;
}

/**
 * Splits a finite angle (radians) into quarter turns. pi is taken with as many more bits as the angle has before the
 * point. No float but 0 comes nearer to a multiple of pi/2 than 2^-62 (Muller, Elementary Functions, 3rd ed., table
 * 11.1), so with 200 bits the count of quarters is certain.
 */
export function reduceAngle(x: number): Reduced {
  const dyadic = toDyadic(x);
  const size = bitLength(dyadic.fraction) + dyadic.exponent;
  const bits = BITS + Math.max(-size, 0);
  const wide = bits + Math.max(size, 0);
  const quarter = piFixed(wide + 1) >> 2n;
  const value = toFixed(dyadic, wide);
  let quarters = value / quarter;
  if (value < 0n) quarters -= 1n;
  return { x, quarters, rest: (value - quarters * quarter) >> BigInt(wide - bits), bits };
}

/** Sine of a reduced angle; of x + pi/2 (the cosine) when `ahead` is 1. */
function sineOf(angle: Reduced, ahead: bigint): { readonly value: bigint; readonly bits: number } {
  const { bits } = angle;
  const quarter = piFixed(bits) >> 1n;
  const place = (angle.quarters + ahead) & 3n;
  const wantsSine = (place & 1n) === 0n;
  // Beyond pi/4 the other function of the complement, so that the series is short.
  const folded = angle.rest > quarter >> 1n;
  const both = sinCosFixed(folded ? quarter - angle.rest : angle.rest, bits);
  const value = wantsSine === folded ? both.cos : both.sin;
  return { value: place >= 2n ? -value : value, bits };
}

function withinOne(value: bigint, bits: number): Interval {
  const { low, high } = outward(value - MARGIN, value + MARGIN, bits);
  return { low: Math.max(low, -1), high: Math.min(high, 1) };
}

/** Sine of a reduced angle that is not 0; never beyond the angle, which decides for angles too small for the series. */
export function sinAt(angle: Reduced): Interval {
  const { value, bits } = sineOf(angle, 0n);
  const { low, high } = withinOne(value, bits);
  return angle.x > 0 ? { low, high: Math.min(high, angle.x) } : { low: Math.max(low, angle.x), high };
}

/** Cosine of a reduced angle that is not 0. */
export function cosAt(angle: Reduced): Interval {
  const { value, bits } = sineOf(angle, 1n);
  return withinOne(value, bits);
}

/** Tangent of a reduced angle that is not 0: sine over cosine, neither of which is 0 at a float. */
export function tanAt(angle: Reduced): Interval {
  const sine = sineOf(angle, 0n).value;
  const cosine = sineOf(angle, 1n).value;
  const negative = sine < 0n !== cosine < 0n;
  const top = sine < 0n ? -sine : sine;
  const bottom = cosine < 0n ? -cosine : cosine;
  const low = floatDown(((top - MARGIN) << BigInt(angle.bits)) / (bottom + MARGIN), -angle.bits);
  const high = floatUp(((top + MARGIN) << BigInt(angle.bits)) / (bottom - MARGIN) + 1n, -angle.bits);
  // Up to a quarter turn the tangent is beyond its angle.
  const least = Math.abs(angle.x) < 1.5 ? Math.max(low, Math.abs(angle.x)) : low;
  return negative ? { low: 0 - high, high: 0 - least } : { low: least, high };
}

/** pi/2 between its two floats. */
export function quarterTurn(): Interval {
  return outward(piFixed(BITS) - 2n, piFixed(BITS) + 4n, BITS + 1);
}

/** pi between its two floats. */
export function halfTurn(): Interval {
  return outward(piFixed(BITS), piFixed(BITS) + 2n, BITS);
}

/** The angle of the point (x, y), both finite and not both 0: in (-pi, pi], pi on the negative x-axis. */
export function atan2At(y: number, x: number): Interval {
  if (y === 0) return x > 0 ? { low: 0, high: 0 } : halfTurn();
  const vertical = toDyadic(Math.abs(y));
  const horizontal = toDyadic(Math.abs(x));
  const common = Math.min(vertical.exponent, horizontal.exponent);
  const top = shift(vertical.fraction, vertical.exponent - common);
  const bottom = shift(horizontal.fraction, horizontal.exponent - common);
  const exact = angleOf(top, bottom, x < 0);
  // An angle is below its tangent, which decides for quotients too small for the series.
  const angle = x > 0 ? { low: exact.low, high: Math.min(exact.high, divUp(Math.abs(y), x)) } : exact;
  return y < 0 ? { low: 0 - angle.high, high: 0 - angle.low } : angle;
}

/** The angle of (bottom, top), or of (-bottom, top) where `back`; both at least 0, exact, not both 0. */
function angleOf(top: bigint, bottom: bigint, back: boolean): Interval {
  if (bottom === 0n) return quarterTurn();
  const bits = BITS + Math.max(bitLength(bottom) - bitLength(top) + 1, 0);
  const acute = atanFixed(top, bottom, bits);
  const value = back ? piFixed(bits) - acute : acute;
  return outward(value - MARGIN, value + MARGIN, bits);
}

/** The angle of (1, x): arc tangent of a finite x. */
export function atanAt(x: number): Interval {
  return atan2At(x, 1);
}

/** Arc sine for -1 <= x <= 1: the angle of (sqrt(1 - x^2), x). */
export function asinAt(x: number): Interval {
  if (x === 0) return { low: 0, high: 0 };
  const { sine, cosine, bits } = unitPoint(Math.abs(x));
  const value = atanFixed(sine, cosine, bits);
  const exact = cosine === 0n ? quarterTurn() : outward(value - MARGIN, value + MARGIN, bits);
  // An angle is beyond its sine.
  const angle = { low: Math.max(exact.low, Math.abs(x)), high: exact.high };
  return x < 0 ? { low: 0 - angle.high, high: 0 - angle.low } : angle;
}

/** Arc cosine for -1 <= x <= 1: the angle of (x, sqrt(1 - x^2)). */
export function acosAt(x: number): Interval {
  if (x === 1) return { low: 0, high: 0 };
  if (x === -1) return halfTurn();
  if (x === 0) return quarterTurn();
  const { sine, cosine, bits } = unitPoint(Math.abs(x));
  const acute = atanFixed(cosine, sine, bits);
  const value = x < 0 ? piFixed(bits) - acute : acute;
  return outward(value - MARGIN, value + MARGIN, bits);
}

/**
 * (cosine, sine) with the given sine > 0, in fixed point. 1 - x^2 is exact before the root; the root is under one unit
 * too small, which turns the angle by under two units where the cosine is the larger, and where it is the smaller too.
 */
function unitPoint(x: number): { readonly sine: bigint; readonly cosine: bigint; readonly bits: number } {
  const dyadic = toDyadic(x);
  const bits = BITS + Math.max(-(bitLength(dyadic.fraction) + dyadic.exponent), 0);
  const scale = -2 * Math.min(dyadic.exponent, 0);
  const square = (1n << BigInt(scale)) - shift(dyadic.fraction * dyadic.fraction, 2 * dyadic.exponent + scale);
  return { sine: toFixed(dyadic, bits), cosine: rootFixed(square, scale, bits), bits };
}

/**
 * x^y for finite x > 0 and y other than 0: e^(y ln x). ln x is off by under 2^-(POWER_BITS - 20), and |y| is below 2^64
 * wherever the result neither overflows nor vanishes (|ln x| >= 2^-54 for x other than 1): the exponent is off by less
 * than one unit of 2^-BITS, and rounded down by under one.
 */
export function powAt(x: number, y: number): Interval {
  if (x === 1) return { low: 1, high: 1 };
  const exact = exactPower(toDyadic(x), toDyadic(y));
  if (exact !== undefined) return exact;
  const exponent = toDyadic(y);
  const product = logOf(toDyadic(x), POWER_BITS) * exponent.fraction;
  const argument = shift(product, exponent.exponent - POWER_BITS + BITS);
  const positive = x > 1 === y > 0;
  if (argument > 710n << BigInt(BITS)) return { low: Number.MAX_VALUE, high: Infinity };
  if (argument < -746n << BigInt(BITS)) return { low: 0, high: Number.MIN_VALUE };
  return expOf(argument, positive);
}

const POWER_BITS = BITS + 90;

/**
 * x^y where that is itself a float: y = p / 2^k, x = (odd number)^(2^k) times a power of two that 2^k divides.
 * Elsewhere undefined: then x^y is no float, since an odd fraction's root or reciprocal is none.
 */
function exactPower(x: Dyadic, y: Dyadic): Interval | undefined {
  let { fraction, exponent } = x;
  for (let k = y.exponent; k < 0; k += 1) {
    const root = integerRootExact(fraction);
    if (root === undefined || exponent % 2 !== 0) return undefined;
    fraction = root;
    exponent /= 2;
  }
  const whole = Number(shift(y.fraction, Math.max(y.exponent, 0)));
  if (fraction === 1n && Math.abs(exponent * whole) < 2000) return outward(1n, 1n, -exponent * whole);
  if (whole < 0 || whole > 34) return undefined;
  const power = fraction ** BigInt(whole);
  return bitLength(power) > 53 ? undefined : outward(power, power, -exponent * whole);
}

function integerRootExact(n: bigint): bigint | undefined {
  const root = rootFixed(n, 0, 0);
  return root * root === n ? root : undefined;
}

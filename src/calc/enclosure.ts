// What is known of a value: exact fractions below and above it, times a power of pi. Each operation gives a range that
// holds every possible result; where the numbers grow too long to carry, it rounds outward.

import { arcCosine, arcSine, arcTangent, fractionalPower, piBounds, root, sine, tangent } from './elementary.js';
import type { Enclosure, Rational } from './rational.js';
import {
  absolute,
  add,
  compare,
  equals,
  larger,
  multiply,
  negate,
  one,
  power,
  rational,
  shorten,
  sign,
  smaller,
  toInteger,
  zero,
} from './rational.js';

export type { Enclosure } from './rational.js';

/** An enclosure times a power of pi: `pi rad / 6` stays exact. */
export interface Scaled extends Enclosure {
  readonly pi: number;
}

const carriedBits = 512;

/** A range from its ends, shortened outward where they are very long. */
export function scaled(low: Rational, high: Rational, pi = 0): Scaled {
  return {
    low: shorten(low, 'down', carriedBits),
    high: shorten(high, 'up', carriedBits),
    pi: sign(low) === 0 && sign(high) === 0 ? 0 : pi,
  };
}

/** One exact value. */
export function exactly(value: Rational, pi = 0): Scaled {
  return scaled(value, value, pi);
}

export function isPoint(a: Enclosure): boolean {
  return equals(a.low, a.high);
}

/** Whether `value` may be the value. */
export function encloses(a: Enclosure, value: Rational): boolean {
  return compare(a.low, value) <= 0 && compare(value, a.high) <= 0;
}

/** The smallest range that holds both. */
export function hull(a: Enclosure, b: Enclosure): Enclosure {
  return { low: smaller(a.low, b.low), high: larger(a.high, b.high) };
}

const piPowers = new Map<number, Enclosure>();

function piToThe(exponent: number): Enclosure {
  const known = piPowers.get(exponent);
  if (known) return known;
  const [below, above] = exponent < 0 ? [piBounds.high, piBounds.low] : [piBounds.low, piBounds.high];
  const range = { low: power(below, exponent), high: power(above, exponent) };
  piPowers.set(exponent, range);
  return range;
}

/** The range without its power of pi, or with another one: exact where it is that one already. */
export function withPi(a: Scaled, pi: number): Scaled {
  if (a.pi === pi || (sign(a.low) === 0 && sign(a.high) === 0)) return a.pi === pi ? a : { ...a, pi };
  const factor = piToThe(a.pi - pi);
  const low = multiply(a.low, sign(a.low) < 0 ? factor.high : factor.low);
  return scaled(low, multiply(a.high, sign(a.high) < 0 ? factor.low : factor.high), pi);
}

function alike(a: Scaled, b: Scaled): readonly [Scaled, Scaled] {
  if (a.pi === b.pi) return [a, b];
  if (sign(a.low) === 0 && sign(a.high) === 0) return [{ ...a, pi: b.pi }, b];
  if (sign(b.low) === 0 && sign(b.high) === 0) return [a, { ...b, pi: a.pi }];
  return [withPi(a, 0), withPi(b, 0)];
}

export function addRanges(left: Scaled, right: Scaled): Scaled {
  const [a, b] = alike(left, right);
  return scaled(add(a.low, b.low), add(a.high, b.high), a.pi);
}

export function negateRange(a: Scaled): Scaled {
  return { low: negate(a.high), high: negate(a.low), pi: a.pi };
}

export function multiplyRanges(a: Scaled, b: Scaled): Scaled {
  const pi = a.pi + b.pi;
  if (isPoint(a) && isPoint(b)) return exactly(multiply(a.low, b.low), pi);
  const ends = [multiply(a.low, b.low), multiply(a.low, b.high), multiply(a.high, b.low), multiply(a.high, b.high)];
  return scaled(ends.reduce(smaller), ends.reduce(larger), pi);
}

/** One over a range that does not hold zero. */
export function invertRange(a: Scaled): Scaled {
  return scaled(rational(a.high.den, a.high.num), rational(a.low.den, a.low.num), -a.pi);
}

/** A range to a whole power; a negative power only where it does not hold zero. */
export function raiseRange(a: Scaled, exponent: number): Scaled {
  if (exponent < 0) return invertRange(raiseRange(a, -exponent));
  if (exponent === 0) return exactly(one);
  const pi = a.pi * exponent;
  if (exponent % 2 === 1) return scaled(raise(a.low, exponent, 'down'), raise(a.high, exponent, 'up'), pi);
  const size = absoluteRange(a);
  return scaled(raise(size.low, exponent, 'down'), raise(size.high, exponent, 'up'), pi);
}

// by squaring, shortened on the way so that a thousandth power stays short
function raise(value: Rational, exponent: number, way: 'down' | 'up'): Rational {
  if (value.num < 0n) return negate(raise(negate(value), exponent, way === 'down' ? 'up' : 'down'));
  let [result, square] = [one, value];
  for (let rest = exponent; rest > 0; rest = Math.floor(rest / 2)) {
    if (rest % 2 === 1) result = shorten(multiply(result, square), way, carriedBits);
    if (rest > 1) square = shorten(multiply(square, square), way, carriedBits);
  }
  return result;
}

/** A positive range to any power in a range of fractions. */
export function raiseToFraction(a: Scaled, exponent: Enclosure): Scaled {
  const plain = withPi(a, 0);
  const ends = [exponent.low, exponent.high].flatMap((power) => [
    fractionalPower(plain.low, power),
    fractionalPower(plain.high, power),
  ]);
  const range = ends.reduce(hull);
  return scaled(range.low, range.high);
}

export function absoluteRange(a: Scaled): Scaled {
  const ends = [absolute(a.low), absolute(a.high)] as const;
  const low = sign(a.low) < 0 && sign(a.high) > 0 ? zero : smaller(...ends);
  return { low, high: larger(...ends), pi: a.pi };
}

export function smallerRange(left: Scaled, right: Scaled): Scaled {
  const [a, b] = alike(left, right);
  return { low: smaller(a.low, b.low), high: smaller(a.high, b.high), pi: a.pi };
}

export function largerRange(left: Scaled, right: Scaled): Scaled {
  const [a, b] = alike(left, right);
  return { low: larger(a.low, b.low), high: larger(a.high, b.high), pi: a.pi };
}

/** The square root of a range that is nowhere negative. */
export function rootRange(a: Scaled): Scaled {
  const even = a.pi % 2 === 0 ? a : withPi(a, a.pi - 1);
  return scaled(root(even.low).low, root(even.high).high, even.pi / 2);
}

// an extreme lies inside where a whole number of turns and `at` does
function passes(a: Enclosure, at: Rational): boolean {
  return toInteger(add(a.high, negate(at)), 'down') >= toInteger(add(a.low, negate(at)), 'up');
}

export function sineRange(angle: Scaled): Scaled {
  const a = withPi(angle, 0);
  const [low, high] = [sine(a.low), sine(a.high)];
  const ends = hull(low, high);
  return scaled(passes(a, rational(3, 4)) ? rational(-1) : ends.low, passes(a, rational(1, 4)) ? one : ends.high);
}

export function cosineRange(angle: Scaled): Scaled {
  const a = withPi(angle, 0);
  return sineRange({ low: add(a.low, rational(1, 4)), high: add(a.high, rational(1, 4)), pi: 0 });
}

/** Whether a tangent jumps somewhere in a range of angles. */
export function holdsQuarter(angle: Scaled): boolean {
  const a = withPi(angle, 0);
  return passes(a, rational(1, 4)) || passes(a, rational(3, 4));
}

/** The tangent of a range of angles without an odd multiple of a quarter. */
export function tangentRange(angle: Scaled): Scaled {
  const a = withPi(angle, 0);
  return scaled(tangent(a.low).low, tangent(a.high).high);
}

export function arcTangentRange(value: Scaled): Scaled {
  const a = withPi(value, 0);
  return scaled(arcTangent(a.low).low, arcTangent(a.high).high);
}

/** The inverse sine of a range within -1 to 1. */
export function arcSineRange(value: Scaled): Scaled {
  const a = withPi(value, 0);
  return scaled(arcSine(a.low).low, arcSine(a.high).high);
}

/** The inverse cosine of a range within -1 to 1. */
export function arcCosineRange(value: Scaled): Scaled {
  const a = withPi(value, 0);
  return scaled(arcCosine(a.high).low, arcCosine(a.low).high);
}

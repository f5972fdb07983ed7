// Square roots, powers, sines and their inverses, and pi, each as exact fractions below and above the true value. Whole
// numbers of any length carry the work, so that no platform's `Math` has a part in a bound. Angles are revolutions.

import type { Enclosure, Rational } from './rational.js';
import {
  add,
  compare,
  divide,
  fromBinary,
  magnitudeBits,
  multiply,
  negate,
  one,
  power,
  rational,
  sign,
  subtract,
  toInteger,
  zero,
} from './rational.js';

// fixed point: x stands for x / 2^bits; what is left out of each result stays below 2^(slack - bits)
const bits = 192n;
const slack = 40n;
const unit = 1n << bits;

/** Pi to 90 digits, rounded down and up. */
export const piBounds: Enclosure = (() => {
  const digits = 3141592653589793238462643383279502884197169399375105820974944592307816406286208998628034825n;
  return { low: rational(digits, 10n ** 90n), high: rational(digits + 1n, 10n ** 90n) };
})();
const twoPi = toInteger(rational(2n * piBounds.low.num * unit, piBounds.low.den), 'down');

function around(fixed: bigint): Enclosure {
  return {
    low: fromBinary(fixed - (1n << slack), Number(bits)),
    high: fromBinary(fixed + (1n << slack), Number(bits)),
  };
}

function toFixed(a: Rational): bigint {
  return (a.num * unit) / a.den;
}

function point(value: Rational): Enclosure {
  return { low: value, high: value };
}

/** The largest whole number whose `degree`-th power is not above `a` (not negative). */
function wholeRoot(a: bigint, degree: bigint): bigint {
  if (a < 2n) return a;
  let x = 1n << (BigInt(a.toString(2).length) / degree + 1n);
  for (;;) {
    const next = ((degree - 1n) * x + a / x ** (degree - 1n)) / degree;
    if (next >= x) return x;
    x = next;
  }
}

/** The `degree`-th root of a number that is not negative; exact where it is a fraction. */
export function root(a: Rational, degree = 2): Enclosure {
  const n = BigInt(degree);
  const [above, below] = [wholeRoot(a.num, n), wholeRoot(a.den, n)];
  if (above ** n === a.num && below ** n === a.den) return point(rational(above, below));
  // scaled so that the whole root has 200 bits and more
  const lack = 200n - (BigInt(a.num.toString(2).length) - BigInt(a.den.toString(2).length)) / n;
  const shift = lack > 0n ? lack : 0n;
  const scaled = wholeRoot((a.num << (shift * n)) / a.den, n);
  return { low: fromBinary(scaled, Number(shift)), high: fromBinary(scaled + 1n, Number(shift)) };
}

// 2 atanh (a / b), for |a / b| up to 1/3
function logOfRatio(above: bigint, below: bigint): bigint {
  let term = (above << bits) / below;
  const square = (term * term) >> bits;
  let sum = 0n;
  for (let i = 1n; term !== 0n && term !== -1n; i += 2n) {
    sum += term / i;
    term = (term * square) >> bits;
  }
  return 2n * sum;
}

const logTwo = logOfRatio(1n, 3n);

/** The natural logarithm of a positive fraction, in fixed point. */
function fixedLog(a: Rational): bigint {
  const twos = Math.round(magnitudeBits(a));
  const { num, den } =
    twos > 0 ? { num: a.num, den: a.den << BigInt(twos) } : { num: a.num << BigInt(-twos), den: a.den };
  // between 1/2 and 2, so that the series runs over at most a third
  return BigInt(twos) * logTwo + logOfRatio(num - den, num + den);
}

// e to a power in fixed point; the scale of the result is 2^twos
function fixedExp(a: bigint): { value: bigint; twos: bigint } {
  const twos = a / logTwo;
  const rest = a - twos * logTwo;
  let [term, sum] = [unit, unit];
  for (let i = 1n; term !== 0n && term !== -1n; i += 1n) {
    term = ((term * rest) >> bits) / i;
    sum += term;
  }
  return { value: sum, twos };
}

/** `a` (positive) to a power that is a fraction; exact where a whole root of a small degree is. */
export function fractionalPower(a: Rational, exponent: Rational): Enclosure {
  if (exponent.den <= 16n && magnitudeBits(a) < 256) {
    const exact = root(a, Number(exponent.den));
    if (compare(exact.low, exact.high) === 0 && exponent.num > -64n && exponent.num < 64n)
      return point(power(exact.low, Number(exponent.num)));
  }
  const { value, twos } = fixedExp((fixedLog(a) * exponent.num) / exponent.den);
  const { low, high } = around(value);
  const scale = twos < 0n ? rational(1n, 1n << -twos) : rational(1n << twos);
  return { low: multiply(low, scale), high: multiply(high, scale) };
}

/** The sine of an angle in revolutions; exact at multiples of a twelfth where it is a fraction. */
export function sine(angle: Rational): Enclosure {
  const turn = subtract(angle, rational(toInteger(angle, 'down')));
  const quarters = Number(toInteger(rational(turn.num * 4n, turn.den), 'down'));
  const rest = subtract(turn, rational(quarters, 4));
  const within = quarters % 2 === 0 ? rest : subtract(rational(1, 4), rest);
  const value = quarterSine(within);
  return quarters < 2 ? value : { low: negate(value.high), high: negate(value.low) };
}

// of an angle between 0 and a quarter
function quarterSine(angle: Rational): Enclosure {
  if (sign(angle) === 0) return point(zero);
  if (compare(angle, rational(1, 4)) === 0) return point(one);
  if (compare(angle, rational(1, 12)) === 0) return point(rational(1, 2));
  const x = (twoPi * angle.num) / angle.den;
  const square = (x * x) >> bits;
  let term = x;
  let sum = x;
  for (let i = 2n; term !== 0n; i += 2n) {
    term = -((term * square) >> bits) / (i * (i + 1n));
    sum += term;
  }
  const { low, high } = around(sum);
  return { low: sign(low) < 0 ? zero : low, high: compare(high, one) > 0 ? one : high };
}

/** The cosine of an angle in revolutions. */
export function cosine(angle: Rational): Enclosure {
  return sine(add(angle, rational(1, 4)));
}

/** The tangent of an angle in revolutions that is no odd multiple of a quarter. */
export function tangent(angle: Rational): Enclosure {
  const twice = subtract(angle, rational(toInteger(rational(angle.num * 2n, angle.den), 'down'), 2));
  if (compare(twice, rational(1, 8)) === 0) return point(one);
  if (compare(twice, rational(3, 8)) === 0) return point(rational(-1));
  const [above, below] = [sine(twice), cosine(twice)];
  const ends = [
    divide(above.low, below.low),
    divide(above.low, below.high),
    divide(above.high, below.low),
    divide(above.high, below.high),
  ];
  return {
    low: ends.reduce((a, b) => (compare(a, b) < 0 ? a : b)),
    high: ends.reduce((a, b) => (compare(a, b) > 0 ? a : b)),
  };
}

/** The angle whose tangent is `a`, in revolutions from -1/4 to 1/4. */
export function arcTangent(a: Rational): Enclosure {
  if (a.num < 0n) {
    const { low, high } = arcTangent(negate(a));
    return { low: negate(high), high: negate(low) };
  }
  if (sign(a) === 0) return point(zero);
  if (compare(a, one) === 0) return point(rational(1, 8));
  if (compare(a, one) > 0) {
    const rest = arcTangent(divide(one, a));
    return { low: subtract(rational(1, 4), rest.high), high: subtract(rational(1, 4), rest.low) };
  }
  return turnsOf(toFixed(a), 0n);
}

/** The angle whose sine is `a` (within -1 to 1), in revolutions from -1/4 to 1/4. */
export function arcSine(a: Rational): Enclosure {
  if (a.num < 0n) {
    const { low, high } = arcSine(negate(a));
    return { low: negate(high), high: negate(low) };
  }
  if (compare(a, one) === 0) return point(rational(1, 4));
  if (compare(a, rational(1, 2)) === 0) return point(rational(1, 12));
  if (sign(a) === 0) return point(zero);
  // asin a = 2 atan (a / (1 + sqrt (1 - a^2))), which stays steady near 1
  const rest = wholeRoot(((a.den * a.den - a.num * a.num) << (2n * bits)) / (a.den * a.den), 2n);
  return turnsOf((toFixed(a) << bits) / (unit + rest), 1n);
}

/** The angle whose cosine is `a` (within -1 to 1), in revolutions from 0 to 1/2. */
export function arcCosine(a: Rational): Enclosure {
  const { low, high } = arcSine(a);
  return { low: subtract(rational(1, 4), high), high: subtract(rational(1, 4), low) };
}

// atan of a fixed-point number within 0 to 1, doubled `doublings` times, in revolutions
function turnsOf(tangentFixed: bigint, doublings: bigint): Enclosure {
  let x = tangentFixed;
  const halvings = 4n;
  for (let i = 0n; i < halvings; i += 1n) x = (x << bits) / (unit + wholeRoot((unit << bits) + x * x, 2n));
  const square = (x * x) >> bits;
  let term = x;
  let sum = 0n;
  for (let i = 1n; term !== 0n; i += 2n) {
    sum += term / i;
    term = -((term * square) >> bits);
  }
  const { low, high } = around(((sum << (halvings + doublings)) << bits) / twoPi);
  return { low: sign(low) < 0 ? zero : low, high };
}

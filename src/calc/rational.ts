// Exact fractions. Every number of a book is one of these until a function needs a rounded bound.
// Rounding happens only where a direction is named; nothing here guesses and nothing overflows.

/** An exact fraction in lowest terms; `den` is positive. */
export interface Rational {
  readonly num: bigint;
  readonly den: bigint;
}

/** A closed range of base values that holds a value for sure; a point where both ends are equal. */
export interface Enclosure {
  readonly low: Rational;
  readonly high: Rational;
}

/** Where a rounded result may lie: below, above, or at the nearest (ties to even). */
export type Rounding = 'down' | 'up' | 'nearest';

export const zero: Rational = { num: 0n, den: 1n };
export const one: Rational = { num: 1n, den: 1n };

/** The longest power of ten that a written number may carry; `1e400` is refused. */
export const maxExponent = 300;

const longestSafe = BigInt(Number.MAX_SAFE_INTEGER);

function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b;
  while (x > longestSafe || y > longestSafe) {
    if (y === 0n) return x;
    const rest = x % y;
    x = y;
    y = rest;
  }
  // whole floats divide without rounding, and many times faster
  let small = Number(x);
  for (let other = Number(y); other !== 0; ) {
    const rest = small % other;
    small = other;
    other = rest;
  }
  return BigInt(small);
}

/** `num / den` in lowest terms. Throws on a zero denominator: callers check first. */
export function rational(num: bigint | number, den: bigint | number = 1n): Rational {
  let n = BigInt(num);
  let d = BigInt(den);
  if (d === 0n) throw new RangeError('A fraction has no zero denominator');
  if (d === 1n) return { num: n, den: d };
  if (d < 0n) [n, d] = [-n, -d];
  const common = gcd(n, d);
  return common === 1n ? { num: n, den: d } : { num: n / common, den: d / common };
}

/** `num / 2^power` in lowest terms. */
export function fromBinary(num: bigint, power: number): Rational {
  if (num === 0n) return zero;
  let zeros = 0;
  // most have few zeros at their end: looking for them is much less work than looking for any common divisor
  while (zeros < power && BigInt.asUintN(32, num >> BigInt(zeros)) === 0n) zeros += 32;
  while (zeros < power && ((num >> BigInt(zeros)) & 1n) === 0n) zeros += 1;
  const shared = BigInt(Math.min(zeros, power));
  return { num: num >> shared, den: 1n << (BigInt(power) - shared) };
}

/** The exact value of a decimal text: `-12`, `3.60`, `.5`, `1e-3`. Undefined for any other text or an exponent over 300. */
export function fromDecimal(text: string): Rational | undefined {
  const parts = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,6}))?$/.exec(text);
  if (!parts) return undefined;
  const [, sign, whole = '', part = '', exponent = '0'] = parts;
  if (whole + part === '') return undefined;
  const power = Number(exponent) - part.length;
  if (Math.abs(Number(exponent)) > maxExponent) return undefined;
  const digits = BigInt(`${sign === '-' ? '-' : ''}${whole}${part}`);
  return power < 0 ? rational(digits, 10n ** BigInt(-power)) : rational(digits * 10n ** BigInt(power));
}

/** The exact value of a finite float. Throws on NaN and infinities, which have none. */
export function fromNumber(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError('Only a finite number is a fraction');
  let scaled = value;
  let power = 0;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    power += 1;
  }
  return fromBinary(BigInt(scaled), power);
}

export function add(a: Rational, b: Rational): Rational {
  return a.den === b.den ? rational(a.num + b.num, a.den) : rational(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function subtract(a: Rational, b: Rational): Rational {
  return add(a, negate(b));
}

export function multiply(a: Rational, b: Rational): Rational {
  return rational(a.num * b.num, a.den * b.den);
}

/** Throws where `b` is zero: callers check first. */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.num * b.den, a.den * b.num);
}

export function negate(a: Rational): Rational {
  return { num: -a.num, den: a.den };
}

export function absolute(a: Rational): Rational {
  return a.num < 0n ? negate(a) : a;
}

/** `a` to a whole power; a negative one of zero throws. */
export function power(a: Rational, exponent: number): Rational {
  if (exponent < 0) return divide(one, power(a, -exponent));
  return { num: a.num ** BigInt(exponent), den: a.den ** BigInt(exponent) };
}

/** -1, 0 or 1, exact. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  const left = a.num * b.den;
  const right = b.num * a.den;
  return left < right ? -1 : left > right ? 1 : 0;
}

export function sign(a: Rational): -1 | 0 | 1 {
  return a.num < 0n ? -1 : a.num > 0n ? 1 : 0;
}

export function equals(a: Rational, b: Rational): boolean {
  return a.num === b.num && a.den === b.den;
}

export function smaller(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b;
}

export function larger(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b;
}

/** The whole number that `a` rounds to; `nearest` takes the even one of two (IEEE 754, ASTM E29). */
export function toInteger(a: Rational, rounding: Rounding): bigint {
  const floor = a.num / a.den - (a.num < 0n && a.num % a.den !== 0n ? 1n : 0n);
  if (rounding === 'down' || floor * a.den === a.num) return floor;
  if (rounding === 'up') return floor + 1n;
  const twice = 2n * (a.num - floor * a.den);
  const up = twice > a.den || (twice === a.den && floor % 2n !== 0n);
  return up ? floor + 1n : floor;
}

/** The multiple of `step` (positive) that `a` rounds to. */
export function toMultiple(a: Rational, step: Rational, rounding: Rounding): Rational {
  return multiply(rational(toInteger(divide(a, step), rounding)), step);
}

/** `a` rounded to `decimals` places (negative: tens, hundreds) as plain digits; zero carries no sign. */
export function formatDecimals(a: Rational, decimals: number, rounding: Rounding = 'nearest'): string {
  const scale = 10n ** BigInt(Math.abs(decimals));
  const scaled = toInteger(decimals < 0 ? rational(a.num, a.den * scale) : rational(a.num * scale, a.den), rounding);
  const digits = (scaled < 0n ? -scaled : scaled).toString();
  const before = scaled < 0n ? '-' : '';
  if (decimals < 0) return scaled === 0n ? '0' : before + digits + '0'.repeat(-decimals);
  if (decimals === 0) return before + digits;
  const padded = digits.padStart(decimals + 1, '0');
  return `${before}${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
}

/** How many decimals write `a` exactly; undefined where no finite number of them does (1/3) or it needs more than `most`. */
export function exactDecimals(a: Rational, most = 30): number | undefined {
  let rest = a.den;
  let [twos, fives] = [0, 0];
  for (; rest % 2n === 0n && twos <= most; rest /= 2n) twos += 1;
  for (; rest % 5n === 0n && fives <= most; rest /= 5n) fives += 1;
  return rest === 1n && Math.max(twos, fives) <= most ? Math.max(twos, fives) : undefined;
}

/** The exponent of the largest power of ten that is not above `a` (positive): 2 for 250, -1 for 0.3. */
export function decimalExponent(a: Rational): number {
  let exponent = a.num.toString().length - a.den.toString().length;
  while (compare(tenTo(exponent), a) > 0) exponent -= 1;
  while (compare(tenTo(exponent + 1), a) <= 0) exponent += 1;
  return exponent;
}

/** Ten to a whole power. */
export function tenTo(exponent: number): Rational {
  return exponent < 0 ? rational(1n, 10n ** BigInt(-exponent)) : rational(10n ** BigInt(exponent));
}

function bitLength(a: bigint): number {
  const hex = (a < 0n ? -a : a).toString(16);
  return hex === '0' ? 0 : (hex.length - 1) * 4 + (32 - Math.clz32(Number.parseInt(hex[0] ?? '0', 16)));
}

/**
 * The float next to `a`: the largest not above (`down`), the smallest not below (`up`), or the nearest (ties to even).
 * Beyond the largest float, `up` gives infinity and `down` the largest float; below the smallest, zero or the smallest.
 */
export function toNumber(a: Rational, rounding: Rounding = 'nearest'): number {
  if (a.num === 0n) return 0;
  if (a.num < 0n) return 0 - toNumber(negate(a), rounding === 'up' ? 'down' : rounding === 'down' ? 'up' : 'nearest');
  // 53 bits of quotient, fewer where the float would be subnormal
  const shift = Math.min(53 - (bitLength(a.num) - bitLength(a.den)), 1074);
  let [scaled, by] = [toScaled(a, shift, rounding), shift];
  if (bitLength(scaled) > 53) {
    by = shift - 1;
    scaled = toScaled(a, by, rounding);
  }
  if (bitLength(scaled) - by > 1024) return rounding === 'down' ? Number.MAX_VALUE : Number.POSITIVE_INFINITY;
  // two exact steps: one power of two alone would leave the range of floats
  const half = Math.trunc(-by / 2);
  return Number(scaled) * 2 ** half * 2 ** (-by - half);
}

function toScaled(a: Rational, shift: number, rounding: Rounding): bigint {
  const scaled =
    shift >= 0 ? { num: a.num << BigInt(shift), den: a.den } : { num: a.num, den: a.den << BigInt(-shift) };
  return toInteger(scaled, rounding);
}

const leastExponent = 4096;
const powersOfTwo = new Map<number, bigint>();

function powerOfTwo(bits: number): bigint {
  const known = powersOfTwo.get(bits) ?? 1n << BigInt(bits);
  powersOfTwo.set(bits, known);
  return known;
}

/** Whether the size of `a` is 2 to the power of `bits` or more. */
export function isBeyond(a: Rational, bits: number): boolean {
  const most = powerOfTwo(bits);
  // the denominator is one or more
  if (a.num < most && a.num > -most) return false;
  return (a.num < 0n ? -a.num : a.num) >= a.den * most;
}

/**
 * A fraction not above (or not below) `a` that needs at most about `bits` bits; `a` itself where it needs no more. What is
 * smaller than 2^-4096 becomes zero or that bound.
 */
export function shorten(a: Rational, rounding: 'down' | 'up', bits = 256): Rational {
  const most = powerOfTwo(bits);
  if (a.den < most && a.num < most && a.num > -most) return a;
  const [above, below] = [bitLength(a.num), bitLength(a.den)];
  const shift = Math.min(bits - (above - below), leastExponent);
  const short = toScaled(a, shift, rounding);
  return shift >= 0 ? rational(short, 1n << BigInt(shift)) : rational(short << BigInt(-shift));
}

/** About the binary logarithm of the size of `a`, to one; minus infinity for zero. */
export function magnitudeBits(a: Rational): number {
  return a.num === 0n ? Number.NEGATIVE_INFINITY : bitLength(a.num) - bitLength(a.den);
}

// Fixed-point numbers on BigInt: n stands for n / 2^bits. From floats (exactly) and back to the float below or above.
// Nothing here rounds to nearest, so nothing here depends on how an engine rounds.

import { powerOfTwo } from './rounding.js';

const float = new Float64Array(1);
const field = new BigUint64Array(float.buffer);

/** A finite float as `fraction * 2^exponent`, exactly; the fraction is odd, or 0 for zero. */
export interface Dyadic {
  readonly fraction: bigint;
  readonly exponent: number;
}

/** Takes a finite float apart, exactly. `toDyadic(0.75)` is 3 * 2^-2. */
export function toDyadic(x: number): Dyadic {
  float[0] = x;
  const biased = Number((field[0]! >> 52n) & 0x7ffn);
  const digits = field[0]! & 0xfffffffffffffn;
  let fraction = biased === 0 ? digits : digits | 0x10000000000000n;
  if (fraction === 0n) return { fraction: 0n, exponent: 0 };
  let exponent = (biased === 0 ? 1 : biased) - 1075;
  const zeros = BigInt(trailingZeros(fraction));
  fraction >>= zeros;
  exponent += Number(zeros);
  return { fraction: x < 0 ? -fraction : fraction, exponent };
}

function trailingZeros(n: bigint): number {
  const lowWord = Number(n & 0xffffffffn);
  if (lowWord !== 0) return 31 - Math.clz32(lowWord & -lowWord);
  return 32 + trailingZeros(n >> 32n);
}

/** How many binary digits |n| has; 0 for 0. */
export function bitLength(n: bigint): number {
  if (n === 0n) return 0;
  const digits = (n < 0n ? -n : n).toString(16);
  return (digits.length - 1) * 4 + (32 - Math.clz32(Number.parseInt(digits[0]!, 16)));
}

/** n * 2^by, rounded down where bits fall off. */
export function shift(n: bigint, by: number): bigint {
  return by >= 0 ? n << BigInt(by) : n >> BigInt(-by);
}

/** The float x in fixed point, rounded down; exact where `bits` suffice. */
export function toFixed(x: Dyadic, bits: number): bigint {
  return shift(x.fraction, x.exponent + bits);
}

/** The largest float that is at most n * 2^exponent; -Infinity below the least one. */
export function floatDown(n: bigint, exponent: number): number {
  if (n < 0n) return 0 - floatUp(-n, exponent);
  const drop = dropped(n, exponent);
  const value = assemble(drop > 0 ? n >> BigInt(drop) : n, exponent + Math.max(drop, 0));
  return value === Infinity ? Number.MAX_VALUE : value;
}

/** The least float that is at least n * 2^exponent; Infinity above the largest one. */
export function floatUp(n: bigint, exponent: number): number {
  if (n < 0n) return 0 - floatDown(-n, exponent);
  const drop = dropped(n, exponent);
  return assemble(drop > 0 ? -(-n >> BigInt(drop)) : n, exponent + Math.max(drop, 0));
}

/** How many low bits of n a float at that exponent has no room for: 53 significant ones, none below 2^-1074. */
function dropped(n: bigint, exponent: number): number {
  return n === 0n ? 0 : Math.max(bitLength(n) - 53, -1074 - exponent);
}

/** n * 2^exponent for an n of at most 53 bits (or 2^53) that is a float or overflows. */
function assemble(n: bigint, exponent: number): number {
  if (n === 0n) return 0;
  const value = Number(n);
  // 2^exponent alone may overflow, or fall below the least float, where the product does not.
  if (exponent > 1000) return exponent > 1100 ? Infinity : value * powerOfTwo(1000) * powerOfTwo(exponent - 1000);
  if (exponent < -1000) return value * powerOfTwo(-1000) * powerOfTwo(exponent + 1000);
  return value * powerOfTwo(exponent);
}

/** The largest whole number whose square is at most n >= 0 (Newton's method from above, which falls until it is there). */
export function integerRoot(n: bigint): bigint {
  if (n === 0n) return 0n;
  let root = 1n << BigInt(Math.ceil(bitLength(n) / 2));
  for (;;) {
    const next = (root + n / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

/** The floats next to an enclosed value. */
export function outward(low: bigint, high: bigint, bits: number): { readonly low: number; readonly high: number } {
  return { low: floatDown(low, -bits), high: floatUp(high, -bits) };
}

// exp, log, sin, cos and atan in fixed point by their power series, with the error counted in units of the last place.
// Each result is off by less than MARGIN = 2^20 units; each comment adds up what the steps can lose, far below that.
// `floor` products lose under one unit, so with all terms positive a series of t terms loses under 3t.

import { integerRoot, shift } from './fixed.js';

/** No function here is off by as much as this many units of 2^-bits, for arguments as its comment says and bits <= 4096. */
export const MARGIN = 1n << 20n;

const cache = { piBits: 0, pi: 0n, ln2Bits: 0, ln2: 0n };
const GUARD = 64;
// The sums below lose under 18 * 2 * bits units either way; taken off, they are never too large.
const BIAS = 1n << 20n;

/** pi * 2^bits, at most two units too small. Machin 1706: pi = 16 atan(1/5) - 4 atan(1/239). */
export function piFixed(bits: number): bigint {
  if (bits > cache.piBits) {
    const wide = bits + GUARD;
    const sum = 16n * inverseSeries(5n, wide, -1n) - 4n * inverseSeries(239n, wide, -1n);
    cache.pi = (sum - BIAS) >> BigInt(GUARD);
    cache.piBits = bits;
  }
  return cache.pi >> BigInt(cache.piBits - bits);
}

/** ln 2 * 2^bits, at most two units too small: ln 2 = 18 atanh(1/26) - 2 atanh(1/4801) + 8 atanh(1/8749). */
export function ln2Fixed(bits: number): bigint {
  if (bits > cache.ln2Bits) {
    const wide = bits + GUARD;
    const sum =
      18n * inverseSeries(26n, wide, 1n) - 2n * inverseSeries(4801n, wide, 1n) + 8n * inverseSeries(8749n, wide, 1n);
    cache.ln2 = (sum - BIAS) >> BigInt(GUARD);
    cache.ln2Bits = bits;
  }
  return cache.ln2 >> BigInt(cache.ln2Bits - bits);
}

/** 1/n + s/(3 n^3) + s^2/(5 n^5) ...: atan(1/n) for s = -1, atanh(1/n) for s = 1. Loses under two units a term. */
function inverseSeries(n: bigint, bits: number, s: bigint): bigint {
  let power = (1n << BigInt(bits)) / n;
  let sum = 0n;
  for (let k = 1n, sign = 1n; power > 0n; k += 2n, sign *= s) {
    sum += (sign * power) / k;
    power /= n * n;
  }
  return sum;
}

/**
 * e^r for 0 <= r < 1. r is divided by 2^8, the series summed (t < bits/8 + 8 terms), the sum squared 8 times.
 * Loss: 3t + 2 units by the series; each squaring at most doubles it times the value and adds 1, the values' product
 * stays under e: under 2^8 * 3 * (3t + 4), below 2^20 for bits <= 4096. An error d of r adds less than 3d.
 */
export function expFixed(r: bigint, bits: number): bigint {
  const places = BigInt(bits);
  const small = r >> 8n;
  let term = 1n << places;
  let sum = term;
  for (let k = 1n; term > 0n; k += 1n) {
    term = ((term * small) >> places) / k;
    sum += term;
  }
  for (let k = 0; k < 8; k += 1) sum = (sum * sum) >> places;
  return sum;
}

/**
 * ln(top / bottom) for 3/4 <= top / bottom < 3/2, top and bottom exact: 2 atanh(s), s = (top - bottom)/(top + bottom),
 * |s| <= 1/5, so under bits/4.6 + 2 terms. Loss: 1 unit in s, 3 a term, twice that in all.
 */
export function logFixed(top: bigint, bottom: bigint, bits: number): bigint {
  const difference = top - bottom;
  const size = difference < 0n ? -difference : difference;
  const s = (size << BigInt(bits)) / (top + bottom);
  const sum = 2n * oddSeries(s, bits, 1n);
  return difference < 0n ? -sum : sum;
}

/** s + sign s^3/3 + sign^2 s^5/5 ... for 0 <= s < 1: atanh for sign 1, atan for sign -1. Under 3 units a term. */
function oddSeries(s: bigint, bits: number, sign: bigint): bigint {
  const places = BigInt(bits);
  const square = (s * s) >> places;
  let power = s;
  let sum = 0n;
  for (let k = 1n, turn = 1n; power > 0n; k += 2n, turn *= sign) {
    sum += turn * (power / k);
    power = (power * square) >> places;
  }
  return sum;
}

/** sin r and cos r for 0 <= r < 1: two series of under bits/2 + 8 terms; loss under 3 units a term. */
export function sinCosFixed(r: bigint, bits: number): { readonly sin: bigint; readonly cos: bigint } {
  const places = BigInt(bits);
  const square = (r * r) >> places;
  return { sin: alternating(r, square, 1n, places), cos: alternating(1n << places, square, 0n, places) };
}

/** first - first q/((k+1)(k+2)) + ...: the sine's series for k = 1, the cosine's for k = 0. */
function alternating(first: bigint, q: bigint, start: bigint, places: bigint): bigint {
  let term = first;
  let sum = 0n;
  for (let k = start, turn = 1n; term > 0n; k += 2n, turn = -turn) {
    sum += turn * term;
    term = ((term * q) >> places) / ((k + 1n) * (k + 2n));
  }
  return sum;
}

/**
 * atan(top / bottom) for 0 <= top, 0 < bottom, both exact (or with an error that the caller counts).
 * Beyond 1: pi/2 - atan(bottom / top). Below: c = j/8 next to t, atan c + atan((t - c)/(1 + t c)), the last argument
 * at most 1/16. Loss: 2 units in that argument, 3 a term (under bits/8 + 2), 3 bits + 9 in atan c, 2 in pi.
 */
export function atanFixed(top: bigint, bottom: bigint, bits: number): bigint {
  if (top > bottom) return (piFixed(bits) >> 1n) - atanFixed(bottom, top, bits);
  const j = (16n * top + bottom) / (2n * bottom);
  const over = 8n * top - j * bottom;
  const under = 8n * bottom + j * top;
  const size = ((over < 0n ? -over : over) << BigInt(bits)) / under;
  const rest = oddSeries(size, bits, -1n);
  return atanEighth(Number(j), bits) + (over < 0n ? -rest : rest);
}

const eighths: { bits: number; value: bigint }[] = [];

/** atan(j/8) for j = 0..8, kept; for small j by its series, else by atan c = pi/4 - atan((1 - c)/(1 + c)). */
function atanEighth(j: number, bits: number): bigint {
  if (j === 0) return 0n;
  const kept = eighths[j];
  if (kept !== undefined && kept.bits >= bits) return kept.value >> BigInt(kept.bits - bits);
  const places = BigInt(bits);
  const c = BigInt(j);
  const value =
    j <= 3
      ? oddSeries((c << places) / 8n, bits, -1n)
      : (piFixed(bits) >> 2n) - oddSeries(((8n - c) << places) / (8n + c), bits, -1n);
  eighths[j] = { bits, value };
  return value;
}

/** sqrt(n / 2^scale) * 2^bits, rounded down, for n >= 0. */
export function rootFixed(n: bigint, scale: number, bits: number): bigint {
  return integerRoot(shift(n, 2 * bits - scale));
}

// The second, slow method: exact fractions on BigInt, and exp, sin and cos by the plain Taylor series with a rest term,
// 400 bits behind the point. Shares no formula, constant or reduction with the code under test.

import fc from 'fast-check';

/** An exact fraction; the denominator is positive. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** A finite float, exactly. */
export function fraction(x: number): Fraction {
  let value = x;
  let bottom = 1n;
  while (!Number.isInteger(value)) {
    value *= 2;
    bottom *= 2n;
    // A float times two is exact unless it overflows, which a float with digits after the point cannot.
  }
  return { top: BigInt(value), bottom };
}

export const plus = (a: Fraction, b: Fraction): Fraction => ({
  top: a.top * b.bottom + b.top * a.bottom,
  bottom: a.bottom * b.bottom,
});

export const minus = (a: Fraction, b: Fraction): Fraction => plus(a, { top: -b.top, bottom: b.bottom });

export const times = (a: Fraction, b: Fraction): Fraction => ({ top: a.top * b.top, bottom: a.bottom * b.bottom });

export function over(a: Fraction, b: Fraction): Fraction {
  const sign = b.top < 0n ? -1n : 1n;
  return { top: a.top * b.bottom * sign, bottom: a.bottom * b.top * sign };
}

/** -1, 0 or 1 as a is less than, equal to or greater than b. */
export function compare(a: Fraction, b: Fraction): number {
  const left = a.top * b.bottom;
  const right = b.top * a.bottom;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** Compares a fraction with an end, which may be infinite. */
export function compareEnd(a: Fraction, end: number): number {
  if (end === Infinity) return -1;
  if (end === -Infinity) return 1;
  return compare(a, fraction(end));
}

/** A value known to lie between two fractions. */
export interface Enclosed {
  readonly low: Fraction;
  readonly high: Fraction;
}

const PLACES = 400n;
const ONE = 1n << PLACES;

/** sum of x^k / k! over k = first, first + step, ... with signs alternating or not, and an enclosure of the rest. */
function taylor(x: Fraction, first: number, step: number, alternates: boolean): Enclosed {
  const size = x.top < 0n ? -x.top : x.top;
  // Exact terms as fractions would grow without end: kept at 400 + margin places, every division floored.
  const margin = 200n + BigInt(Math.ceil(Number(size / x.bottom) * 3));
  const places = PLACES + margin;
  const scaled = (x.top << places) / x.bottom;
  let term = 1n << places;
  for (let k = 1; k <= first; k += 1) term = ((term * scaled) / BigInt(k)) >> places;
  let sum = 0n;
  let steps = 0;
  for (let k = first, sign = 1n; term !== 0n && steps < 5000; k += step, steps += 1) {
    sum += sign * term;
    for (let j = 1; j <= step; j += 1) term = ((term * scaled) >> places) / BigInt(k + j);
    if (alternates) sign = -sign;
    if (term === -1n) term = 0n;
  }
  // Each step errs by a few units times the largest term, e^|x| < 2^(1.5 |x| + 1), which the margin outweighs.
  const value = sum >> margin;
  return { low: { top: value - 2n, bottom: ONE }, high: { top: value + 2n, bottom: ONE } };
}

/** e^x for |x| <= 100, to 2^-398. */
export const expExact = (x: Fraction): Enclosed => taylor(x, 0, 1, false);
/** sin x for |x| <= 100, to 2^-398. */
export const sinExact = (x: Fraction): Enclosed => taylor(x, 1, 2, true);
/** cos x for |x| <= 100, to 2^-398. */
export const cosExact = (x: Fraction): Enclosed => taylor(x, 0, 2, true);

const buffer = new DataView(new ArrayBuffer(8));

/** Floats of every size alike: random bit patterns, subnormals and the edges among them; no NaN, no infinity. */
export const anyFloat: fc.Arbitrary<number> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .bigInt(0n, 2n ** 64n - 1n)
      .map(fromBits)
      .filter(Number.isFinite),
  },
  { weight: 2, arbitrary: fc.integer({ min: -1000, max: 1000 }) },
  { weight: 2, arbitrary: fc.double({ min: -1e6, max: 1e6, noNaN: true }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      0,
      5e-324,
      -5e-324,
      2 ** -1022,
      2 ** -1022 - 5e-324,
      Number.MAX_VALUE,
      -Number.MAX_VALUE,
      1,
      -1,
    ),
  },
);

function fromBits(bits: bigint): number {
  buffer.setBigUint64(0, bits);
  return buffer.getFloat64(0);
}

/** The seed and count of every property here, so that a run can be repeated. */
export const settings = { seed: 20260907, numRuns: 2000 };

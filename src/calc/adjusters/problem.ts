// What can be turned and what that moves, brought to whole numbers: settings are counts of the smallest turn, and each
// value asks that a whole-number sum lie between two whole numbers. Exact, so that touching a limit counts as inside.

import { fromNumber, type Rational } from '../rational.js';

/** A finite float, taken at its exact binary value, or an exact fraction. */
export type Exact = number | Rational;

/** What a person can turn, in one unit; settings are whole multiples of `smallest`, within the range, ends included. */
export interface Adjuster {
  readonly low: Exact;
  readonly high: Exact;
  readonly smallest: Exact;
  /** Where it stands now, counted from where it stood at first: a multiple of `smallest`; 0 where left out. */
  readonly turned?: Exact;
}

/** A reading, the limits that it must come within, and how much each adjuster moves it, per unit of turn, in order. */
export interface AdjustedValue {
  readonly reading: Exact;
  readonly low?: Exact;
  readonly high?: Exact;
  readonly effects: readonly Exact[];
}

/** low <= sum of effects[i] * n[i] <= high, in whole numbers. */
export interface Row {
  readonly effects: readonly bigint[];
  readonly low: bigint | undefined;
  readonly high: bigint | undefined;
}

/** The counts that an adjuster may stand at, and where it stands. */
export interface Span {
  readonly least: bigint;
  readonly most: bigint;
  readonly now: bigint;
}

/** Where each adjuster may stand, and what each value asks. */
export interface Problem {
  readonly spans: readonly Span[];
  readonly rows: readonly Row[];
}

/** The exact value of either kind of number. */
export function exactly(x: Exact): Rational {
  return typeof x === 'number' ? fromNumber(x) : x;
}

/**
 * Brings the question to whole numbers. Throws a RangeError for a smallest turn that is not above 0, a range that is
 * empty or whose present setting is outside it or between two steps, and effects that do not match the adjusters.
 */
export function buildProblem(adjusters: readonly Adjuster[], values: readonly AdjustedValue[]): Problem {
  return { spans: adjusters.map(toSpan), rows: values.map((value) => toRow(adjusters, value)) };
}

function toSpan(adjuster: Adjuster): Span {
  const step = exactly(adjuster.smallest);
  if (step.num <= 0n) throw new RangeError('Unexpected smallest turn, expected one above 0');
  const count = (x: Exact): Rational => {
    const { num, den } = exactly(x);
    return { num: num * step.den, den: den * step.num };
  };
  const [low, high, turned] = [count(adjuster.low), count(adjuster.high), count(adjuster.turned ?? 0)];
  if (low.num * high.den > high.num * low.den)
    throw new RangeError('Unexpected range of an adjuster, expected low <= high');
  if (turned.num % turned.den !== 0n)
    throw new RangeError('Unexpected present setting, expected a multiple of the smallest turn');
  const span = {
    least: ceilDivide(low.num, low.den),
    most: floorDivide(high.num, high.den),
    now: turned.num / turned.den,
  };
  if (span.now < span.least || span.now > span.most)
    throw new RangeError('Unexpected present setting, expected it within the range');
  return span;
}

function toRow(adjusters: readonly Adjuster[], value: AdjustedValue): Row {
  if (value.effects.length !== adjusters.length) {
    throw new RangeError(`Unexpected ${value.effects.length} effects, expected ${adjusters.length}`);
  }
  const reading = exactly(value.reading);
  const effects = value.effects.map((effect, i) => multiply(exactly(effect), exactly(adjusters[i]!.smallest)));
  // The reading was taken at the present setting, so what has been turned is already in it.
  const origin = effects.reduce(
    (sum, effect, i) => subtract(sum, multiply(effect, exactly(toCount(adjusters[i]!)))),
    reading,
  );
  const low = value.low === undefined ? undefined : subtract(exactly(value.low), origin);
  const high = value.high === undefined ? undefined : subtract(exactly(value.high), origin);
  const scale = [...effects, low, high].reduce(
    (product, x) => (x === undefined ? product : leastCommon(product, x.den)),
    1n,
  );
  const whole = (x: Rational) => x.num * (scale / x.den);
  return { effects: effects.map(whole), low: low && whole(low), high: high && whole(high) };
}

function toCount(adjuster: Adjuster): Rational {
  const turned = exactly(adjuster.turned ?? 0);
  const step = exactly(adjuster.smallest);
  return { num: (turned.num * step.den) / (turned.den * step.num), den: 1n };
}

function multiply(a: Rational, b: Rational): Rational {
  return { num: a.num * b.num, den: a.den * b.den };
}

function subtract(a: Rational, b: Rational): Rational {
  return { num: a.num * b.den - b.num * a.den, den: a.den * b.den };
}

function leastCommon(a: bigint, b: bigint): bigint {
  return (a / greatestCommon(a, b)) * b;
}

/** The greatest common divisor of two whole numbers, not negative. */
export function greatestCommon(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** a / b as a float, however long both are, for b other than 0. Relative error below 4e-16. */
export function ratio(a: bigint, b: bigint): number {
  const top = Number(a);
  const bottom = Number(b);
  if (Number.isFinite(top) && Number.isFinite(bottom)) return top / bottom;
  // Both lose the same number of low bits, far below the digits of a float.
  const drop = BigInt(Math.max(0, Math.max(a.toString(16).length, b.toString(16).length) * 4 - 1000));
  return Number(a >> drop) / Number(b >> drop);
}

/** Either kind of number as a float. */
export function toNumber(x: Exact): number {
  return typeof x === 'number' ? x : ratio(x.num, x.den);
}

/** a / b rounded down, for b > 0. */
export function floorDivide(a: bigint, b: bigint): bigint {
  const quotient = a / b;
  return a < 0n && quotient * b !== a ? quotient - 1n : quotient;
}

/** a / b rounded up, for b > 0. */
export function ceilDivide(a: bigint, b: bigint): bigint {
  return -floorDivide(-a, b);
}

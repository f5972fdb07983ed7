// Numbers of the walk in words: rounded to what the value shows, in the page's language, unit and number together.

import { fromBase } from '../../../src/calc/conversion.js';
import {
  absolute,
  compare,
  exactDecimals,
  formatDecimals,
  type Rational,
  type Rounding,
  rational,
  toNumber,
} from '../../../src/calc/rational.js';
import type { Unit } from '../../../src/calc/unit-type.js';
import { printedUnits } from '../../../src/emit/printed-units.js';
import type { WalkValue } from '../../../src/emit/walk/walk-shape.js';

/** The unit of a difference of two values: a temperature point loses its offset. */
function differenceUnit(unit: Unit): Unit {
  const { offset: _, ...rest } = unit;
  return rest;
}

/** A base value in a unit, with so many digits behind the point. */
export function writeNumber(base: Rational, unit: Unit, { decimals, rounding }: Digits): string {
  const number = fromBase(base, unit);
  const text =
    unit.pi === 0
      ? formatDecimals(number, decimals, rounding)
      : (toNumber(number) / Math.PI ** unit.pi).toFixed(decimals);
  return withUnit(text.replace('-', '\u2212'), unit);
}

interface Digits {
  readonly decimals: number;
  readonly rounding?: Rounding;
}

/** A unit as it is printed where no number stands before it: `°`, `°F`, `ft in`. */
export function unitSign({ symbol, over }: Unit): string {
  return over ? 'ft in' : printedUnits(`0\u00a0${symbol}`).slice(1).trim();
}

/** Number and unit, which stay on one line. */
function withUnit(number: string, { symbol, over }: Unit): string {
  return symbol === '' ? number : printedUnits(`${number}\u00a0${over ? 'in' : symbol}`);
}

/** How many digits behind the point a value is shown with: those of its resolution, else of its limits. */
function decimalsOf(value: WalkValue, more = 0): number {
  const step = value.resolution ?? (value.acceptance ?? value.tolerance)?.resolution;
  if (!step) return 2 + more;
  const inUnit = fromBase(step, differenceUnit(value.unit));
  const number = toNumber(value.resolution ? inUnit : step);
  if (!(number > 0)) return 2 + more;
  return Math.min(
    Math.max(exactDecimals(value.resolution ? inUnit : step, 6) ?? Math.ceil(-Math.log10(number)), 0) + more,
    6,
  );
}

/** A value as it is read: `3.31 V`. */
export function valueWords(value: WalkValue, base: Rational): string {
  return writeNumber(base, value.unit, { decimals: decimalsOf(value) });
}

/** A distance or an uncertainty in the value's unit; never `0` where it is not. */
export function distanceWords(value: WalkValue, distance: Rational): string {
  const unit = differenceUnit(value.unit);
  for (let more = 0; more < 4; more += 1) {
    const decimals = decimalsOf(value, more);
    const rounded = formatDecimals(fromBase(distance, unit), decimals);
    if (Number(rounded) !== 0 || distance.num === 0n) return writeNumber(distance, unit, { decimals });
  }
  return writeNumber(distance, unit, { decimals: 6 });
}

/** How far to turn, without its sign: whole steps show their own digits. */
export function turnWords(unit: Unit, by: Rational, smallest: Rational | undefined): string {
  const plain = differenceUnit(unit);
  const step = smallest && fromBase(smallest, plain);
  const decimals = (step && exactDecimals(step, 4)) ?? 1;
  return writeNumber(absolute(by), plain, { decimals });
}

/** The same as digits to type: with a sign and a point. */
export function turnDigits(unit: Unit, by: Rational, smallest: Rational | undefined): string {
  const plain = differenceUnit(unit);
  const step = smallest && fromBase(smallest, plain);
  return formatDecimals(fromBase(by, plain), (step && exactDecimals(step, 4)) ?? 1);
}

/** Expanded uncertainty at the limit that a reading is nearer to. */
export function uncertaintyAt({ uncertainty, acceptance }: WalkValue, base: Rational): Rational | undefined {
  if (!uncertainty) return undefined;
  const { low, high } = uncertainty;
  if (!low || !high || !acceptance?.low || !acceptance.high) return low ?? high;
  const middle = rational(
    acceptance.low.num * acceptance.high.den + acceptance.high.num * acceptance.low.den,
    2n * acceptance.low.den * acceptance.high.den,
  );
  return compare(base, middle) < 0 ? low : high;
}

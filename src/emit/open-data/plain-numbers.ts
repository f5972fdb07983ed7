// Numbers of the worked-out book as plain JSON: in the unit they are read in, never further out than the exact ones.

import type { Limits } from '../../calc/limits.js';
import { exactDecimals, formatDecimals, type Rational, type Rounding } from '../../calc/rational.js';
import { fromBase, type Unit } from '../../calc/unit.js';
import type { PlainEnds, PlainLimits, PlainUnit } from '../../model/compiled-book.js';

/** Most digits behind the point that a number carries; longer ones are rounded inward. */
const mostDecimals = 9;

export function plainUnit({ symbol, ucum }: Unit): PlainUnit {
  return { symbol, ...(ucum !== undefined && { ucum }) };
}

/** A base value in a unit, rounded where its digits do not end. */
export function plainNumber(base: Rational, unit: Unit, rounding: Rounding = 'nearest'): number {
  const value = fromBase(base, unit);
  const decimals = Math.min(exactDecimals(value) ?? mostDecimals, mostDecimals);
  const number = Number(formatDecimals(value, decimals, rounding));
  return unit.pi === 0 ? number : Number((number / Math.PI ** unit.pi).toPrecision(12));
}

/** Limits with their ends in `unit`, rounded inward, and as they are shown. */
export function plainLimits(limits: Limits, unit: Unit, shown: string): PlainLimits {
  return {
    ...(limits.low && { low: plainNumber(limits.low, unit, 'up') }),
    ...(limits.high && { high: plainNumber(limits.high, unit, 'down') }),
    unit: plainUnit(unit),
    shown,
    exact: plainEnds(limits),
  };
}

/** The ends as fractions in base units; those of a unit with a power of pi name it, for they equal no fraction without. */
export function plainEnds({ low, high, unit }: Limits): PlainEnds {
  return { ...(low && { low: plainFraction(low, unit) }), ...(high && { high: plainFraction(high, unit) }) };
}

/** `18/5`, or `1/2 pi^-1` for a number of a unit that carries a power of pi. */
export function plainFraction({ num, den }: Rational, { pi }: Pick<Unit, 'pi'> = { pi: 0 }): string {
  return `${num}${den === 1n ? '' : `/${den}`}${pi === 0 ? '' : ` pi^${pi}`}`;
}

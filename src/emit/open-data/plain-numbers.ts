// Numbers of the worked-out book as plain JSON: in the unit they are read in, never further out than the exact ones.

import type { Limits } from '../../calc/limits.js';
import { exactDecimals, formatDecimals, type Rational, type Rounding } from '../../calc/rational.js';
import { fromBase, type Unit } from '../../calc/unit.js';

/** Most digits behind the point that a number carries; longer ones are rounded inward. */
const mostDecimals = 9;

export interface PlainUnit {
  readonly symbol: string;
  readonly ucum?: string;
}

export interface PlainLimits {
  readonly low?: number;
  readonly high?: number;
  readonly unit: PlainUnit;
  readonly shown: string;
}

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
  };
}

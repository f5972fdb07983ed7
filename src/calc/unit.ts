// Units of the trade as exact factors, and the dimensions they have.

import type { Rational } from './rational.js';

/**
 * Exponents of the base dimensions, in this order: length, mass, time, current, temperature, amount,
 * luminous intensity, angle, bushel count. Exponents may be halves (a square root of an area is a length).
 */
export type Dimension = readonly number[];

/** A unit as it may be written in a book. */
export interface Unit {
  /** As printed: `in`, `ft/min`, `degF`, `%`. The empty text is the bare number. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** How many coherent base units (SI; angle in revolutions; bushel in bushels) one of it is, without its power of pi. */
  readonly factor: Rational;
  /** The factor is `factor * pi ** pi`; 0 for all but the radian. */
  readonly pi: number;
  /** For a temperature point: base = value * factor + offset, in kelvin. */
  readonly offset?: Rational;
  /** The UCUM code; missing where UCUM has none. */
  readonly ucum?: string;
  /** Which system the unit belongs to; `both` for volts, seconds, percent. */
  readonly system: 'us' | 'si' | 'both';
}

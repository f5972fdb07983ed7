// What a unit is. The units themselves stand in unit-table.ts, how they are read in unit.ts.

import type { Dimension } from './dimension.js';
import type { Rational } from './rational.js';

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
  /** The larger unit written in front of it: the foot of `17 ft 5 in`. Values count in the smaller one. */
  readonly over?: Unit;
}

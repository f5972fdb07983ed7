// What an instrument's accuracy says of one reading: the largest error e, u = e / sqrt 3 with the resolution r adding
// r / sqrt 12 in quadrature unless digits are counted (JCGM 100, 4.3.7), and U = 2 u.

import type { Dimension } from './dimension.js';
import { root } from './elementary.js';
import type { Enclosure, Rational } from './rational.js';
import { absolute, add, larger, multiply, rational, sign, subtract, zero } from './rational.js';
import type { Unit } from './unit-type.js';

/** `p % of reading + q % of range + n digits ± c`: every part that is not written is zero. `constant` in base units. */
export interface Accuracy {
  readonly ofReading: Rational;
  readonly ofRange: Rational;
  readonly digits: Rational;
  readonly constant: Rational;
  /** Of `constant`, where one is written. */
  readonly dimension?: Dimension;
}

/** What a reading is taken with; numbers in base units. */
export interface Instrument {
  readonly accuracy: Accuracy;
  /** The smallest change that it shows. */
  readonly resolution?: Rational;
  readonly range?: Enclosure;
  /** The unit that it shows: readings are multiples of the resolution from this unit's zero. */
  readonly unit?: Unit;
}

/** Whether nothing is known of an instrument's error: no part is written. */
export function isExactInstrument(instrument: Instrument): boolean {
  const { ofReading, ofRange, digits, constant } = instrument.accuracy;
  return [ofReading, ofRange, digits, constant].every((part) => sign(part) === 0);
}

/** Each part of the largest error at a reading, in base units. */
export function errorParts(instrument: Instrument, reading: Rational): readonly Rational[] {
  const { accuracy, range, resolution, unit } = instrument;
  const shown = unit?.offset ? subtract(reading, unit.offset) : reading;
  // the larger of span and full scale: what `of range` means differs from maker to maker
  const scale = range
    ? larger(subtract(range.high, range.low), larger(absolute(range.high), absolute(range.low)))
    : zero;
  const span = range && unit?.offset ? subtract(range.high, range.low) : scale;
  return [
    multiply(accuracy.ofReading, absolute(shown)),
    multiply(accuracy.ofRange, span),
    multiply(accuracy.digits, resolution ?? zero),
    accuracy.constant,
  ];
}

/** The largest error e at a reading, in base units. */
export function largestError(instrument: Instrument, reading: Rational): Rational {
  return errorParts(instrument, reading).reduce(add);
}

/** U^2 = (4 e^2 + r^2) / 3 at a reading, exact; r = 0 where digits are counted. */
export function squaredUncertainty(instrument: Instrument, reading: Rational): Rational {
  const error = largestError(instrument, reading);
  const step = countsResolution(instrument) ? (instrument.resolution ?? zero) : zero;
  return multiply(add(multiply(rational(4), multiply(error, error)), multiply(step, step)), rational(1, 3));
}

/** Whether the resolution adds to the uncertainty: it does unless the accuracy counts digits. */
export function countsResolution(instrument: Instrument): boolean {
  return sign(instrument.accuracy.digits) === 0;
}

/** U = 2u of one reading, rounded up (beyond the sixtieth digit). */
export function expandedUncertainty(instrument: Instrument, reading: Rational): Rational {
  return root(squaredUncertainty(instrument, reading)).high;
}

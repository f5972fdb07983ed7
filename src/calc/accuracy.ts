// Accuracy specifications of instruments, and the uncertainty of a reading.
import type { Parsed } from './expression/ast.js';
import type { Rational } from './rational.js';
import type { Dimension } from './unit.js';

/** `p % of reading + q % of range + n digits ± c`: every part that is not written is zero. Constant in base units. */
export interface Accuracy {
  readonly ofReading: Rational;
  readonly ofRange: Rational;
  readonly digits: Rational;
  readonly constant: Rational;
  /** Of `constant`, where one is written. */
  readonly dimension?: Dimension;
}

/** What a reading is taken with; everything in base units. */
export interface Instrument {
  readonly accuracy: Accuracy;
  readonly resolution?: Rational;
  readonly range?: { readonly low: Rational; readonly high: Rational };
}

/** `0.5 % + 2 digits`, `0.2 % of range`, `± 0.02 V`. */
export function parseAccuracy(_text: string): Parsed<Accuracy> {
  throw new Error('Not ready');
}
/** The largest error e at a reading, in base units. */
export function largestError(_instrument: Instrument, _reading: Rational): Rational {
  throw new Error('Not ready');
}
/** U = 2u of one reading, rounded up. */
export function expandedUncertainty(_instrument: Instrument, _reading: Rational): Rational {
  throw new Error('Not ready');
}

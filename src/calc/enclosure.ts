// What is known of a value: exact fractions below and above it. One operation in, one sure result out.

import type { Rational } from './rational.js';

/** A closed range of base values that holds the value for sure; a point where both ends are equal. */
export interface Enclosure {
  readonly low: Rational;
  readonly high: Rational;
}

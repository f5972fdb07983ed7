// Limits worked out for one rig: exact ends in base units, closed, either end may be missing.

import type { Rational } from './rational.js';
import type { Unit } from './unit.js';

/**
 * A closed range of allowed values. Ends are in coherent base units of `unit`'s dimension (temperature points in
 * kelvin, angles in revolutions). `unit` and `decimals` say how it was written, so that it is shown likewise.
 */
export interface Limits {
  readonly low?: Rational;
  readonly high?: Rational;
  readonly nominal?: Rational;
  readonly unit: Unit;
  /** The unit of the last written digit, in `unit`: the resolution the author chose. */
  readonly resolution: Rational;
}

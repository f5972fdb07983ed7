// Limits that decide on a reading: the tolerance less the instrument's uncertainty.
import type { Instrument } from './accuracy.js';
import type { Limits } from './limits.js';
import type { Rational } from './rational.js';

export type Decision = 'simple' | 'guarded' | 'three-zone';

export interface Acceptance {
  /** What decides and is shown, rounded inward to the instrument's resolution; undefined where no reading can pass. */
  readonly limits?: Limits;
  /** `three-zone`: outside these a reading fails for sure; between them and `limits` it is too close to call. Rounded outward. */
  readonly failing?: Limits;
  /** Tolerance width / 2U at the worse end; undefined for one-sided limits or an instrument without error. */
  readonly ratio?: Rational;
  /** Resolution over tolerance width; undefined for one-sided limits or without resolution. */
  readonly coarseness?: Rational;
}

/** The acceptance limits of a value that is read directly. */
export function acceptanceLimits(_of: { limits: Limits; instrument?: Instrument; decision: Decision }): Acceptance {
  throw new Error('Not ready');
}

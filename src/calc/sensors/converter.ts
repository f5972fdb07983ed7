// What an analogue-to-digital converter can tell apart. Two conventions are in use; the caller names one.

import { requirePositive } from '../statistics/require.js';

/** steps: the reference is 2^n steps (code = V 2^n / Vref). codes: it is 2^n - 1 steps, the highest code being the reference. */
export type CodeConvention = 'steps' | 'codes';

/** A converter of `bits` bits (1 to 32) with a reference in V. */
export interface Converter {
  readonly bits: number;
  readonly reference: number;
  readonly convention: CodeConvention;
}

function stepCount({ bits, convention }: Converter): number {
  if (!Number.isInteger(bits) || bits < 1 || bits > 32)
    throw new RangeError(`Unexpected ${bits} bits, expected 1 to 32`);
  // By repeated doubling, which is exact.
  let count = 1;
  for (let i = 0; i < bits; i += 1) count *= 2;
  return convention === 'steps' ? count : count - 1;
}

/** One step in V: Vref / 2^n or Vref / (2^n - 1). The two differ by one part in 2^n. */
export function converterStep(converter: Converter): number {
  return requirePositive(converter.reference, 'reference') / stepCount(converter);
}

/** The code of a voltage, rounded down and held within 0 to 2^n - 1. Error: one step. */
export function converterCode(voltage: number, converter: Converter): number {
  const count = stepCount(converter);
  const top = converter.convention === 'steps' ? count - 1 : count;
  const code = Math.floor((voltage * count) / requirePositive(converter.reference, 'reference'));
  if (Number.isNaN(code)) throw new RangeError(`Unexpected voltage ${voltage}, expected a number`);
  return Math.min(Math.max(code, 0), top);
}

/** Standard uncertainty in V from the step alone: step / sqrt(12) (JCGM 100:2008, 4.3.7, F.2.2.1). */
export function quantisationUncertainty(converter: Converter): number {
  return converterStep(converter) / Math.sqrt(12);
}

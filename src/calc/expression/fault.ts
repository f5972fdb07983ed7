// How a fault at a place of a text leaves the functions that found it: thrown inside, caught where the work began.

import type { ExpressionFault, Parsed } from './ast.js';

/** A fault of the text, on its way to the function that began to parse. */
export class FaultError extends Error {
  constructor(readonly fault: ExpressionFault) {
    super(fault.message);
  }
}

/** Gives up with a message at `start` to `end`. */
export function fail(fault: ExpressionFault): never {
  throw new FaultError(fault);
}

/** Runs what may fail at a place of the expression. */
export function catchFault<T>(run: () => T): Parsed<T> {
  try {
    return { ok: true, value: run() };
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, fault: error.fault };
    throw error;
  }
}

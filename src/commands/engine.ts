// How the engine is set before work begins. Results do not depend on it; time does.

import { setFlagsFromString } from 'node:v8';
import type { ResourceLimits } from 'node:worker_threads';

/**
 * Lets the engine compile less, and later. A run lasts seconds and meets thousands of functions, and what is compiled with care
 * has to be earned back: copying small functions into each other took a quarter of all processor time of `check` and a third of
 * `guard`; compiling after a quarter of the calls took a quarter of the rest of `check` and a third of `guard` once more.
 */
export function tuneEngine(): void {
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=100');
  setFlagsFromString('--interrupt-budget=500000');
}

/** Room for what a thread makes and drops for each slip: with less of it, it is copied about again and again. */
export const roomyThread: ResourceLimits = { maxYoungGenerationSizeMb: 192 };

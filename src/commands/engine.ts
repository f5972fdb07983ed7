// How the engine is set before work begins. Results do not depend on it; time does.

import { setFlagsFromString } from 'node:v8';
import type { ResourceLimits } from 'node:worker_threads';

/**
 * Lets the engine compile small functions by themselves. A run lasts seconds and meets thousands of functions: copying them
 * into each other took a quarter of all processor time of `check`, a third of `guard`, and was not earned back.
 */
export function tuneEngine(): void {
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=100');
}

/** Room for what a thread makes and drops for each slip: with less of it, it is copied about again and again. */
export const roomyThread: ResourceLimits = { maxYoungGenerationSizeMb: 192 };

// Conditions on states as plain data.

import type { Limits } from '../../calc/limits.js';
import type { PlainCondition, PlainLimits } from '../../model/compiled-book.js';
import type { ResolvedCondition } from '../../model/resolved.js';
import { plainLimits } from './plain-numbers.js';
import { withoutMissing } from './without-missing.js';

/** A condition; without `is` and `limits` the state is unknown. */
export function plainCondition({ state, test, bundle }: ResolvedCondition): PlainCondition {
  return withoutMissing({
    state,
    is: test.kind === 'words' ? test.words : undefined,
    limits: test.kind === 'limits' ? shownLimits(test.limits, test.text) : undefined,
    bundle,
  });
}

/** Limits in the unit they are written in. */
export function shownLimits(limits: Limits, shown: string): PlainLimits {
  return plainLimits(limits, limits.unit, shown);
}

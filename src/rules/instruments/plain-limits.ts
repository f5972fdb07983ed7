// Numbers of instruments that are the same for every rig, worked out without one.

import type { Limits } from '../../calc/limits.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import type { NumberChoice } from '../../model/numbers.js';
import type { Span } from '../../text/source.js';

/** The limits with their place; undefined where they differ by rig, name a parameter, or are none. */
export function plainLimits(choice: NumberChoice | undefined): (Limits & { readonly at: Span }) | undefined {
  if (choice?.kind !== 'one') return undefined;
  const { expr, source } = choice.value;
  const found = resolveLimits(expr, () => undefined);
  return found.ok ? { ...found.value, at: source.at } : undefined;
}

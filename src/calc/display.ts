// Limits in both systems of units, as pages and cards print them.

import type { Limits } from './limits.js';
import { formatLimits, limitsIn } from './quantity-text.js';
import { otherSystemUnit } from './unit.js';

export type { Look } from './quantity-text.js';
export { formatEnclosure, formatLimits, formatQuantity, likeResolution, limitsIn } from './quantity-text.js';

/**
 * Limits in both systems, the one of `first` in front: `20 ft (6.096 m)`. Where the unit belongs to both, or has no
 * counterpart, or nothing would be left of the limits in the other unit, the written one alone.
 */
export function formatBoth(limits: Limits, first: 'us' | 'si'): string {
  const other = otherSystemUnit(limits.unit);
  const converted = other && limitsIn(limits, other);
  if (!converted) return formatLimits(limits);
  const [before, behind] = limits.unit.system === first ? [limits, converted] : [converted, limits];
  return `${formatLimits(before)} (${formatLimits(behind)})`;
}

// Within what the computed cells and results of a worksheet lie, whatever is written into it.

import { type Bounds, boundsOf } from '../../calc/expression/bounds.js';
import type { Limits } from '../../calc/limits.js';
import { formatEnclosure, formatLimits, formatQuantity } from '../../calc/quantity-text.js';
import { compare, larger, rational, smaller } from '../../calc/rational.js';
import type { ResolvedWorksheet } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';

/** What is worked out in a worksheet and has limits, and within what it lies. */
export interface Reach {
  readonly id: string;
  readonly limits: Limits;
  readonly at: Span;
  readonly bounds: Bounds;
}

/**
 * All that is worked out in a worksheet and has limits. A cell that is written is within its limits and what its
 * instrument can show, for without these nothing passes; else it may be any number.
 */
export function reachesOf({ parameters, rows, columns, results }: ResolvedWorksheet): readonly Reach[] {
  const names = new Map<string, Bounds>(parameters);
  const ids = new Set(columns.map(({ id }) => id));
  const count = { low: rational(rows.min), ...(rows.max === undefined ? {} : { high: rational(rows.max) }) };
  const found: Reach[] = [];
  for (const { id, from, limits, limitsAt, instrument } of columns) {
    // the cells of one row are single values
    const bounds = from ? boundsOf(from, { names, columns: new Set(), rows: count }) : (instrument?.range ?? {});
    if (from && limits && limitsAt) found.push({ id, limits, at: limitsAt, bounds });
    names.set(id, limits ? bothOf(bounds, limits) : bounds);
  }
  for (const { id, from, limits, limitsAt } of results) {
    const bounds = boundsOf(from, { names, columns: ids, rows: count });
    if (limits && limitsAt) found.push({ id, limits, at: limitsAt, bounds });
    names.set(id, bounds);
  }
  return found;
}

function bothOf(a: Bounds, b: Bounds): Bounds {
  const low = a.low && b.low ? larger(a.low, b.low) : (a.low ?? b.low);
  const high = a.high && b.high ? smaller(a.high, b.high) : (a.high ?? b.high);
  return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

/** Whether nothing that can be written keeps the limits. */
export function isImpossible({ limits, bounds }: Reach): boolean {
  const above = limits.high !== undefined && bounds.low !== undefined && compare(bounds.low, limits.high) > 0;
  return above || (limits.low !== undefined && bounds.high !== undefined && compare(bounds.high, limits.low) < 0);
}

/** Whether everything that can be written keeps the limits. */
export function isIdle({ limits, bounds }: Reach): boolean {
  const low = !limits.low || (bounds.low !== undefined && compare(limits.low, bounds.low) <= 0);
  return low && (!limits.high || (bounds.high !== undefined && compare(bounds.high, limits.high) <= 0));
}

/** What the rules on limits in worksheets say: the limits, and what their result comes to whatever is written. */
export interface ReachFacts {
  readonly id: string;
  readonly limits: string;
  /** `0 % or more`: rounded outward. */
  readonly range: string;
}

export function reachFacts({ id, limits, bounds: { low, high } }: Reach): ReachFacts {
  const range =
    low && high
      ? formatEnclosure({ low, high }, limits)
      : low
        ? `${formatQuantity(low, limits, 'down')} or more`
        : high
          ? `${formatQuantity(high, limits, 'up')} or less`
          : 'any number';
  return { id, limits: formatLimits(limits), range };
}

// The words that the rules on derived values share.

import { formatLimits, formatQuantity } from '../../calc/display.js';
import type { ResolvedValue } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import type { Verdict } from './ranges.js';

/** What a finding on a derived value says: its id, its limits, and what its inputs can make it. */
export interface DerivedFacts {
  readonly id: string;
  readonly limits: string;
  /** `2.50 to 3.50 V`: rounded outward. */
  readonly range: string;
  readonly inputs: readonly string[];
}

export function derivedFacts(value: ResolvedValue, { range, limits }: Verdict): DerivedFacts {
  const as = { unit: limits.unit, resolution: limits.resolution };
  const low = formatQuantity(range.outer.low, as, 'down');
  const high = formatQuantity(range.outer.high, as, 'up');
  return {
    id: value.id,
    limits: formatLimits(limits),
    range: `${low} to ${high}`,
    inputs: value.derived?.inputs ?? [],
  };
}

/** The expression and the limits of its inputs, as related places. */
export function derivedPlaces(value: ResolvedValue, others: readonly ResolvedValue[]): { message: string; at: Span }[] {
  const inputs = others.filter(({ id }) => value.derived?.inputs.includes(id));
  return inputs.map((input) => ({
    message: `\`${input.id}\` is ${input.shown.acceptance ?? input.shown.tolerance ?? 'not limited'}`,
    at: input.limitsAt,
  }));
}

// The words that the rules on derived values share.

import { formatEnclosure, formatLimits } from '../../calc/display.js';
import type { ResolvedValue } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import type { Kind, Verdict } from './ranges.js';

/** What a finding on a derived value says: its id, its limits, and what its inputs can make it. */
export interface DerivedFacts {
  readonly id: string;
  readonly limits: string;
  /** `2.50 to 3.50 V`: rounded outward. */
  readonly range: string;
  readonly inputs: readonly string[];
}

/** `a` and `b`. */
export function sayInputs(inputs: readonly string[]): string {
  return inputs.map((name) => `\`${name}\``).join(' and ');
}

export function derivedFacts(value: ResolvedValue, { range, limits }: Verdict): DerivedFacts {
  return {
    id: value.id,
    limits: formatLimits(limits),
    range: formatEnclosure(range.outer, { unit: limits.unit, resolution: limits.resolution }),
    inputs: value.derived?.inputs ?? [],
  };
}

/** The limits of its inputs, as related places: those of the book, or those in use. */
export function derivedPlaces(
  value: ResolvedValue,
  others: readonly ResolvedValue[],
  kind: Kind,
): { message: string; at: Span }[] {
  const inputs = others.filter(({ id }) => value.derived?.inputs.includes(id));
  return inputs.map((input) => ({
    message: `\`${input.id}\` is ${input.shown[kind] ?? input.shown.tolerance ?? 'not limited'}${kind === 'acceptance' ? ' in use' : ''}`,
    at: input.limitsAt,
  }));
}

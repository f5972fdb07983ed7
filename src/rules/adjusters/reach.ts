// What one adjuster can do for each value that it moves, before any reading is taken.

import { assessAdjusters, type Reach, type ValueBand } from '../../calc/adjusters/reach.js';
import { formatQuantity } from '../../calc/display.js';
import {
  absolute,
  compare,
  larger,
  multiply,
  negate,
  type Rational,
  rational,
  subtract,
  zero,
} from '../../calc/rational.js';
import type { ResolvedAdjuster, ResolvedProcedure, ResolvedValue } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';

/** An adjuster and a value that it moves, with what it can do there at its most effective. */
export interface Moved {
  readonly adjuster: ResolvedAdjuster;
  readonly value: ResolvedValue;
  /** Missing where there are too many settings to go through, or the band of readings is not known. */
  readonly reach?: Reach;
  /** The value's change for one base unit of turn, the larger of its bounds. */
  readonly effect: Rational;
  /** Where the effect is written. */
  readonly at: Span;
}

/** Whether even one smallest turn, either way, leads out of the range. */
export function isStuck({ range, smallest }: ResolvedAdjuster): boolean {
  if (!smallest || !range.low || !range.high) return false;
  return compare(smallest, larger(larger(range.high, negate(range.low)), zero)) > 0;
}

/** Whether the range leaves out 0, which is where the adjuster stands before it is turned. */
export function startsOutside({ range }: ResolvedAdjuster): boolean {
  return (
    (range.low !== undefined && compare(range.low, zero) > 0) ||
    (range.high !== undefined && compare(range.high, zero) < 0)
  );
}

const fewTurns = rational(4);

/**
 * Whether `smallest` and `range` do not fit each other, as a turn of 10 deg in a range of 12: one of them is then rather the
 * slip than what a turn moves.
 */
export function hasFewTurns({ range, smallest }: ResolvedAdjuster): boolean {
  if (!smallest || !range.low || !range.high) return false;
  return compare(multiply(smallest, fewTurns), larger(range.high, negate(range.low))) > 0;
}

/** Every adjuster of a procedure with every value that it moves and that has limits. */
export function movedValues(procedure: ResolvedProcedure): readonly Moved[] {
  return procedure.adjusters.flatMap((adjuster) =>
    [...adjuster.moves].flatMap(([id, { low, high }]) => {
      const value = procedure.values.find((one) => one.id === id);
      if (!value?.acceptance) return [];
      const effect = compare(absolute(low), absolute(high)) > 0 ? low : high;
      const reach = reachOf(adjuster, value, effect);
      const at = adjuster.source.moves.find((move) => move.value.value === id)?.at ?? adjuster.source.idAt;
      return [{ adjuster, value, effect, at, ...(reach ? { reach } : {}) }];
    }),
  );
}

function reachOf(adjuster: ResolvedAdjuster, value: ResolvedValue, effect: Rational): Reach | undefined {
  const { range, smallest } = adjuster;
  if (startsOutside(adjuster)) return undefined;
  const band = bandOf(value, effect);
  if (!band || !range.low || !range.high) return undefined;
  // Without a smallest turn any turn can be made; a thousandth of the range stands for it.
  const step = smallest ?? multiply(subtract(range.high, range.low), rational(1, 1000));
  if (step.num <= 0n) return undefined;
  const assessed = assessAdjusters([{ low: range.low, high: range.high, smallest: step }], [band]);
  return assessed.kind === 'assessed' ? assessed.values[0] : undefined;
}

function bandOf({ acceptance, inside, instrument }: ResolvedValue, effect: Rational): ValueBand | undefined {
  const low = inside?.low ?? instrument?.range?.low;
  const high = inside?.high ?? instrument?.range?.high;
  if (!low || !high || !acceptance) return undefined;
  const { low: from, high: to } = acceptance;
  return { inside: { low, high }, ...(from ? { low: from } : {}), ...(to ? { high: to } : {}), effects: [effect] };
}

/** An amount of the value in its own unit, for a message. */
export function amount(value: ResolvedValue, base: Rational): string {
  const finest = multiply(value.acceptance?.resolution ?? rational(1, 100), rational(1, 10));
  return formatQuantity(absolute(base), { unit: value.unit, resolution: finest });
}

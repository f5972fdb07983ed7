// Which readings a step makes stale.

import type { ResolvedProcedure, ResolvedStep } from '../model/resolved.js';

/** The values that a step's adjusters move or that `stale` names, with all that is derived from them. */
export function agedValues(procedure: ResolvedProcedure, step: ResolvedStep): ReadonlySet<string> {
  const moved = step.adjust.flatMap((id) => [
    ...(procedure.adjusters.find((each) => each.id === id)?.moves.keys() ?? []),
  ]);
  const aged = new Set([...moved, ...step.stale]);
  for (let size = -1; size < aged.size; ) {
    size = aged.size;
    for (const { id, derived } of procedure.values) {
      if (derived?.inputs.some((input) => aged.has(input))) aged.add(id);
    }
  }
  return aged;
}

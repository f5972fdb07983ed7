// One order for violations: along the steps, then as kinds are told.

import type { ResolvedProcedure } from '../model/resolved.js';
import type { Violation } from './result.js';

/** Violations in the order of the steps of `procedure`; what belongs to no step first, what an end runs last. */
export function sortViolations(violations: readonly Violation[], procedure: ResolvedProcedure): readonly Violation[] {
  const order = new Map(procedure.steps.map(({ id }, index) => [id, index]));
  const keyed = violations.map((violation) => ({ violation, key: keyOf(violation, order) }));
  return keyed.sort((a, b) => compareKeys(a.key, b.key)).map(({ violation }) => violation);
}

function keyOf({ place, kind, at }: Violation, order: ReadonlyMap<string, number>): readonly number[] {
  if (!place) return [-1];
  const own = order.get(place.calls[0] ?? place.step) ?? 0;
  const numbers = place.number.split('.').map(Number);
  return [
    place.end ? 1 : 0,
    place.end ? 0 : own,
    ...numbers,
    ...[...kind].map((letter) => letter.charCodeAt(0)),
    at.start,
  ];
}

function compareKeys(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.max(a.length, b.length); i += 1) {
    const apart = (a[i] ?? -1) - (b[i] ?? -1);
    if (apart !== 0) return apart;
  }
  return 0;
}

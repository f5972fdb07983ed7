// What the order proof says of each step of a page, by the label that the step has there.

import type { Variant } from '../../model/resolved.js';
import type { StepFacts } from '../../order/result.js';
import { endProcedures } from '../step-label.js';
import type { Page } from './context.js';

/** What is known at each step, by its label; what two ends run alike is joined. */
export function factsOf(page: Page, variant: Variant): ReadonlyMap<string, StepFacts> {
  const prefixes = new Map(
    endProcedures(variant).flatMap(({ ends, prefix }) => ends.map((end) => [end, prefix] as const)),
  );
  const facts = new Map<string, StepFacts>();
  for (const one of page.site.proofs.get(variant.id)?.facts ?? []) {
    const label = `${one.place.end ? (prefixes.get(one.place.end) ?? '') : ''}${one.place.number}`;
    const other = facts.get(label);
    facts.set(label, other ? merged(other, one) : one);
  }
  return facts;
}

// two ends may run the same steps: what is known there is what both agree on
function merged(a: StepFacts, b: StepFacts): StepFacts {
  const before = a.before.flatMap((set) => {
    const other = b.before.find(({ state, person }) => state === set.state && person === set.person);
    return other ? [{ ...set, values: [...new Set([...set.values, ...other.values])] }] : [];
  });
  return {
    ...a,
    before,
    hazards: [...new Set([...a.hazards, ...b.hazards])],
    rules: [...new Set([...a.rules, ...b.rules])],
  };
}

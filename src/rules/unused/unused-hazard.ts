// A hazard that a procedure lists and no step of it meets.

import { warningKinds } from '../../order/result.js';
import { type Proof, rule } from '../rule.js';

export default rule({
  id: 'unused-hazard',
  severity: 'warning',
  needs: 'proofs',
  *run(proofs, { book, isPart }) {
    if (isPart) return;
    // a rule with a wrong name for its hazard may be what meets it
    if (book.rules.some(({ hazard }) => hazard && !book.hazards.has(hazard.value))) return;
    const byProcedure = new Map<string, Proof[]>();
    for (const proof of proofs) {
      const { id } = proof.variant.procedure;
      byProcedure.set(id, [...(byProcedure.get(id) ?? []), proof]);
    }
    for (const procedure of book.procedures.values()) {
      const own = byProcedure.get(procedure.id);
      if (!own?.every(isKnown)) continue;
      const named = procedure.steps.flatMap(({ hazards }) => hazards.map(({ value }) => value));
      if (named.some((id) => !book.hazards.has(id))) continue;
      const met = new Set(own.flatMap(({ result }) => result.facts.flatMap(({ hazards }) => hazards)));
      for (const { value, at } of procedure.hazards) if (!met.has(value)) yield { at, data: { hazard: value } };
    }
  },
  say: ({ hazard }) => ({
    message: `No step meets the hazard \`${hazard}\` that is listed here`,
    help: `Add \`hazard: [${hazard}]\` to the steps that meet it, or take it out.`,
    note: 'A warning without a step tires people of warnings.',
  }),
});

// Without a proof for every rig, or while a step may be missing, nothing can be said of what no step meets.
function isKnown({ result }: Proof): boolean {
  const isRight = result.violations.every(({ kind }) => warningKinds.has(kind));
  return result.complete && isRight && result.unreachable.length === 0;
}

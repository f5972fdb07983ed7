// A hazard that a procedure lists and no step of it meets.

import { rule } from '../rule.js';

export default rule({
  id: 'unused-hazard',
  severity: 'warning',
  needs: 'proofs',
  *run(proofs, { book }) {
    for (const procedure of book.procedures.values()) {
      const own = proofs.filter(({ variant }) => variant.procedure.id === procedure.id);
      // Without a proof for every rig nothing can be said of what no step meets.
      if (own.length === 0 || own.some(({ result }) => !result.complete)) continue;
      const met = new Set(own.flatMap(({ result }) => result.facts.flatMap(({ hazards }) => hazards)));
      for (const { value, at } of procedure.hazards) if (!met.has(value)) yield { at, data: { hazard: value } };
    }
  },
  say: ({ hazard }) => ({
    message: `No step meets the hazard \`${hazard}\` that is listed here`,
    help: `Add \`hazard: [${hazard}]\` to the steps that meet it, or take it out.`,
    note: 'A caution without a step tires people of cautions.',
  }),
});

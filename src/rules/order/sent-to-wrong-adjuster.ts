// A failing reading sent to an adjuster that does not move it.

import type { ResolvedProcedure } from '../../model/resolved.js';
import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, listed, where } from './words.js';

export default rule({
  id: 'sent-to-wrong-adjuster',
  severity: 'warning',
  needs: 'proof',
  *run(proof, context) {
    const { procedure } = proof.variant;
    for (const finding of violationsOf('sent-to-wrong-adjuster', proof, context)) {
      const { place, value } = finding.data;
      const measured = procedure.steps.find(({ id }) => id === place?.step)?.measure ?? [];
      const adjuster = procedure.adjusters.find(({ id }) => id === value);
      const moves = [...(adjuster?.moves.keys() ?? [])];
      const unmoved = measured.filter((id) => !moves.includes(id));
      const typed = unmoved.filter((id) => !isFree(procedure, id));
      // where nothing else fails, it is what is worked out from values that are not moved either
      const read = typed.length > 0 ? typed : unmoved;
      yield { ...finding, data: { violation: finding.data, read, moves, better: turning(read, procedure) } };
    }
  },
  say: ({ violation, read, moves, better }) => {
    const adjuster = code(violation.value ?? '');
    const [reading, moved] = [listed(read.map(code), 'and'), listed(moves.map(code), 'and')];
    const goal = better.length > 0 ? listed(better.map(code), 'or') : `a step that turns what moves ${reading}`;
    return sayOf(violation, {
      message: `${capital(where(violation))} sends a failing reading of ${reading} to a step that turns ${adjuster}, and that moves ${moved} alone`,
      help: `Send it to ${goal}; or, if ${adjuster} does move ${reading}, say by how much under its \`moves\`.`,
    });
  },
});

// A value without limits never fails, and what is worked out from a value that is moved is moved with it.
function isFree({ values }: ResolvedProcedure, id: string): boolean {
  const value = values.find((one) => one.id === id);
  return value !== undefined && (value.tolerance === undefined || value.derived !== undefined);
}

// Steps that turn something which moves one of the values.
function turning(values: readonly string[], { steps, adjusters }: ResolvedProcedure): readonly string[] {
  const able = adjusters.filter(({ moves }) => values.some((value) => moves.has(value))).map(({ id }) => id);
  return steps.filter(({ adjust }) => adjust.some((id) => able.includes(id))).map(({ id }) => id);
}

// Something is turned without a reading that says how far.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, listed, where } from './words.js';

export default rule({
  id: 'adjust-without-reading',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const finding of violationsOf('adjust-without-reading', proof, context)) {
      const adjuster = proof.variant.procedure.adjusters.find(({ id }) => id === finding.data.value);
      yield { ...finding, data: { violation: finding.data, moves: [...(adjuster?.moves.keys() ?? [])] } };
    }
  },
  say: ({ violation, moves }) =>
    sayOf(violation, {
      message: `${capital(where(violation))} turns ${code(violation.value ?? '')}, and no fresh reading says how far`,
      help: `Before ${where(violation)}, add a step that measures ${listed(moves.map(code), 'or')}.`,
      note: 'The turn is worked out from a reading, and the as-found reading comes before the first adjustment (DOE-STD-1054).',
    }),
});

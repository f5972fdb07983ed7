// A branch that may be taken so many times, and then says nothing.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'loop-without-else',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('else-missing', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} says how often a branch may be taken, and not where to go after that`,
      help: 'Add `else: …` to the branch, with a step id, `stop` or `call-service`.',
    }),
});

// A branch that may be taken so many times, and then says nothing.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { where } from './words.js';

export default rule({
  id: 'loop-without-else',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('else-missing', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `A branch of ${where(violation)} has \`at-most\` and does not say what comes after`,
      help: 'Add `else: …` with a step, `stop` or `call-service`.',
    }),
});

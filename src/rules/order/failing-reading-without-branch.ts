// A reading that may fail and has nowhere to go then.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { where } from './words.js';

export default rule({
  id: 'failing-reading-without-branch',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('outside-without-branch', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`${violation.value ?? ''}\` may be outside its limits in ${where(violation)}, and the step does not say where to go then`,
      help: 'Add `when: { outside: … }` with a step, `stop` or `call-service`.',
      note: 'Without it a person goes on with a machine that has just failed.',
    }),
});

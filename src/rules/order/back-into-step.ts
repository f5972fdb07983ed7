// A branch goes back to where something was required that may no longer hold.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, missingWords, where } from './words.js';

export default rule({
  id: 'back-into-step',
  severity: 'warning',
  needs: 'proof',
  run: (proof, context) => violationsOf('back-into-step', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} goes back to a step although ${missingWords(violation.missing)}`,
      help: 'Bring it about again before going back.',
    }),
});

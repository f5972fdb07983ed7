// An instrument is read where what it needs may not hold.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, missingWords, where } from './words.js';

export default rule({
  id: 'instrument-needs-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('instrument-needs', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} reads an instrument that needs more than holds there: ${missingWords(violation.missing)}`,
      help: 'Bring it about in a step before.',
    }),
});

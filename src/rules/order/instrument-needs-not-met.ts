// An instrument is read where what it needs may not hold.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, missingWords, where } from './words.js';

export default rule({
  id: 'instrument-needs-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('instrument-needs', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} reads ${code(violation.value ?? '')} with an instrument that does not work there: ${missingWords(violation.missing)}`,
      help: bringAbout(violation),
    }),
});

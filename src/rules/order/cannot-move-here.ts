// A step moves something that cannot move as things stand.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, missingWords, where } from './words.js';

export default rule({
  id: 'cannot-move-here',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('moves-when', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} moves ${code(violation.value ?? '')}, which cannot move there: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, ['mend what the step sets']),
      note: 'The state says under `moves-when` what it takes to move it.',
    }),
});

// A step moves something that cannot move as things stand.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'cannot-move-here',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('moves-when', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `Unexpected move in ${where(violation)}: ${missingWords(violation.missing)}`,
      help: 'Bring about first what it needs to move, or mend what the step sets.',
      note: 'The state says under `moves-when` what it takes to move it.',
    }),
});

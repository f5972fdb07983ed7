// An end at which what the book wants there may not hold.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'unsafe-end',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('end-must-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`${violation.end ?? ''}\` is reached after ${where(violation)} while ${missingWords(violation.missing)}`,
      help: 'Bring it about before that end, or in the procedure that the end runs.',
      note: 'safety.yaml says under `ends` how a machine is left when the work stops.',
    }),
});

// Something put on for the work that is not put back at the end.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'not-restored',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('not-restored', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`${violation.end ?? 'done'}\` is reached after ${where(violation)} and something is not put back: ${missingWords(violation.missing)}`,
      help: 'Put it back in a step before the end, or say in `leaves` that it stays so.',
    }),
});

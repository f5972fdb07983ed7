// A hand-held instrument without a place where a person stands to read it.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'instrument-out-of-reach',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('instrument-place', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} reads \`${violation.value ?? ''}\` with an instrument that somebody holds, and nothing says where they stand`,
      help: 'Say `read-at: …` at the value or at the instrument.',
      note: 'Whether a person may stand there is proved against the safety rules.',
    }),
});

// A hand-held instrument without a place where a person stands to read it.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, where } from './words.js';

export default rule({
  id: 'instrument-out-of-reach',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('instrument-place', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} reads ${code(violation.value ?? '')} with an instrument that somebody holds, and nothing says where they stand`,
      help: `Say \`read-at: …\` at ${code(violation.value ?? '')} or at the instrument, with a place of the state \`person\`.`,
      note: 'Whether a person may stand there is then proved against the safety rules.',
    }),
});

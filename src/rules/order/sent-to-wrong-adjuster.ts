// A failing reading sent to an adjuster that does not move it.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, where } from './words.js';

export default rule({
  id: 'sent-to-wrong-adjuster',
  severity: 'warning',
  needs: 'proof',
  run: (proof, context) => violationsOf('sent-to-wrong-adjuster', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} sends a failing reading to ${code(violation.value ?? '')}, which moves nothing that was read there`,
      help: `Send it to a step that turns what moves it, or add the value under \`moves\` of ${code(violation.value ?? '')}.`,
    }),
});

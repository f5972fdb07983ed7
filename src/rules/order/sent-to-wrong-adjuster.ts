// A failing reading sent to an adjuster that does not move it.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'sent-to-wrong-adjuster',
  severity: 'warning',
  needs: 'proof',
  run: (proof, context) => violationsOf('sent-to-wrong-adjuster', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} sends a failing reading to \`${violation.value ?? ''}\`, which moves none of what was read`,
      help: 'Send it to the adjuster that moves it, or add the value to `moves`.',
    }),
});

// A procedure is run while the person may be somewhere else than it takes them to be.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, missingWords, where } from './words.js';

export default rule({
  id: 'wrong-place-at-run',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('place-not-met-at-run', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} runs \`${violation.callee ?? ''}\`, which begins somewhere else: ${missingWords(violation.missing)}`,
      help: 'Bring the person there with `at` in a step before.',
    }),
});

// What the procedure promises to leave behind, and may not.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'end-state-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('leaves-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`${violation.end ?? 'done'}\` is reached after ${where(violation)} while ${missingWords(violation.missing)}`,
      help: 'Add a step that brings it about before the end, or mend `leaves`.',
      note: '`leaves` is proved on every path, since other procedures build on it.',
    }),
});

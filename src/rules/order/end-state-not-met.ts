// What the procedure promises to leave behind, and may not.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { endWords, missingWords } from './words.js';

export default rule({
  id: 'end-state-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('leaves-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `What \`leaves\` promises does not hold at ${endWords(violation)}: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, ['mend `leaves`']),
      note: 'It is proved on every path, since other procedures build on it.',
    }),
});

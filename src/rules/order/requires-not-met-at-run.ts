// A procedure is run where what it requires may not hold.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { calledWords, missingWords } from './words.js';

export default rule({
  id: 'requires-not-met-at-run',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('requires-not-met-at-run', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${calledWords(violation)}, which requires more than holds there: ${missingWords(violation.missing)}`,
      help: bringAbout(violation),
    }),
});

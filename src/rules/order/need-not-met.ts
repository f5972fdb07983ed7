// A step whose needs may not hold when it begins.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, missingWords, where } from './words.js';

export default rule({
  id: 'need-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('need-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} begins without what it needs: ${missingWords(violation.missing)}`,
      help: bringAbout(violation),
    }),
});

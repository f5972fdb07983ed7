// A requirement that must stay so throughout and does not.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'requirement-lost',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('throughout-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `After ${where(violation)} a requirement that holds \`throughout\` is lost: ${missingWords(violation.missing)}`,
      help: 'Leave it as it is in this step, or take out `throughout` if it may change.',
    }),
});

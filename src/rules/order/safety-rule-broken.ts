// A safety rule that may not be kept at a step or an end.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'safety-rule-broken',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('rule-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${violation.end ? `Reaching \`${violation.end}\` after` : 'At'} ${where(violation)} the safety rule \`${violation.rule?.id ?? ''}\` is not kept: ${missingWords(violation.missing)}`,
      help: 'Make it so in a step before, or keep people out of there in this step.',
      note: violation.rule?.origin
        ? `The rule comes from ${Object.values(violation.rule.origin)[0] ?? ''}.`
        : 'A safety rule holds at every step and every end.',
    }),
});

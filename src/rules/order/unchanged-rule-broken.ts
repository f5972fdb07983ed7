// A step changes what a safety rule wants left alone.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { stateWords, where } from './words.js';

export default rule({
  id: 'unchanged-rule-broken',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('unchanged-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `At ${where(violation)} \`${violation.changed?.state ?? ''}\` ${violation.changed?.by === 'physics' ? 'changes' : 'is set'}, and the safety rule \`${violation.rule?.id ?? ''}\` wants it unchanged while ${violation.triggeredBy.map(stateWords).join(' and ')}`,
      help: 'Bring the person away first, with `at` in a step before.',
      note: violation.rule?.origin
        ? `The rule comes from ${Object.values(violation.rule.origin)[0] ?? ''}.`
        : 'A safety rule holds at every step and every end.',
    }),
});

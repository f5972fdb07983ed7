// Something put on for the work that is not put back at the end.

import type { MissingFact } from '../../order/result.js';
import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { code, endWords, listed, stateName, valueWords } from './words.js';

export default rule({
  id: 'not-restored',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('not-restored', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `At ${endWords(violation)}, ${violation.missing.map(leftWords).join('; ')}`,
      help: `On the way to ${code(violation.end ?? 'done')}, add a step that puts ${listed(violation.missing.map(stateName), 'and')} back; or say in \`leaves\` how it is left.`,
      note: 'The state says `restore: true`: every procedure leaves it as it found it.',
    }),
});

function leftWords(fact: MissingFact): string {
  const [asItWas, ...safe] = fact.wanted;
  const is = fact.values.length === 1 ? 'is' : 'may be';
  const goal = safe.length > 0 ? `${asItWas} or ${valueWords(safe)}` : asItWas;
  return `${stateName(fact)} ${is} left ${valueWords(fact.values)} and must be ${goal}`;
}

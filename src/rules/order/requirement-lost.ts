// A requirement that must stay so throughout and does not.

import type { Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, listed, missingWords, stateName, where } from './words.js';

export default rule({
  id: 'requirement-lost',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('throughout-broken', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${lossWordsOf(violation)} what is required \`throughout\`: ${missingWords(violation.missing)}`,
      help: `${keep(violation)}; or take out \`throughout\`, if it may change once the work has begun.`,
    }),
});

function lossWordsOf(violation: Violation): string {
  const { phase, place, missing, trace } = violation;
  const step = capital(where(violation));
  if (phase === 'failed') return `${step} may fail and lose`;
  const lost = missing[0]?.lost;
  const by = lost?.kind === 'step' ? trace[lost.entry]?.place : undefined;
  // What a branch says that is seen is judged only at the step where it leads.
  return by?.number === place?.number ? `${step} loses` : `${step} is done without`;
}

function keep(violation: Violation): string {
  const states = listed(violation.missing.map(stateName), 'and');
  return violation.phase === 'failed'
    ? `Say under \`means\` of that branch what is then seen of ${states}`
    : `Leave ${states} as it is in ${where(violation)}`;
}

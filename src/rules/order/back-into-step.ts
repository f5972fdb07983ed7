// A branch goes back to where something was required that may no longer hold.

import type { Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, listed, missingWords, stateName, where } from './words.js';

export default rule({
  id: 'back-into-step',
  severity: 'warning',
  needs: 'proof',
  run: (proof, context) => violationsOf('back-into-step', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} goes back to ${code(goalOf(violation))}, and what was so there at first no longer is: ${missingWords(violation.missing)}`,
      help: `Let it go back to a step that brings ${listed(violation.missing.map(stateName), 'and')} back first, or add such a step.`,
      note: 'The second time something is read or turned in another state than the first.',
    }),
});

function goalOf({ trace }: Violation): string {
  return trace.at(-1)?.taken?.go ?? '';
}

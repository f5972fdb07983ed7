// A procedure is run while the person may be somewhere else than it takes them to be.

import type { Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { calledEnd, calledWords, code, missingWords } from './words.js';

export default rule({
  id: 'wrong-place-at-run',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('place-not-met-at-run', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${calledWords(violation)}, which begins somewhere else: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, goItself(violation)),
      note: 'A procedure takes the person to be where states.yaml says under `start`, unless its `requires` say otherwise.',
    }),
});

// What an end runs is not asked where it begins if it goes there at once.
function goItself(violation: Violation): readonly string[] {
  if (calledEnd(violation) === undefined) return [];
  return [`let the first step of ${code(violation.callee ?? '')} go there itself, with \`at\``];
}

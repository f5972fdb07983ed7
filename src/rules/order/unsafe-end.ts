// An end at which what the book wants there may not hold.

import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { code, endWords, missingWords } from './words.js';

export default rule({
  id: 'unsafe-end',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('end-must-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `The machine is not left as the book wants it at ${endWords(violation)}: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, [
        `let ${code(violation.end ?? '')} run a procedure that does so, under \`ends\` in safety.yaml`,
      ]),
    }),
});

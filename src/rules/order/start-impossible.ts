// Requirements that cannot all hold at once.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';

export default rule({
  id: 'start-impossible',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('start-impossible', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `No machine can be as \`requires\` says: it contradicts the \`physics\` of the book`,
      help: 'Mend the requirement, or the entry of `physics`.',
    }),
});

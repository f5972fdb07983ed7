// A step sets what cannot be.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'state-not-possible',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('physics-forbids-set', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} sets \`${violation.changed?.state ?? ''}\` to something that physics of the book does not allow there`,
      help: 'Set first what makes it possible, or mend what the step sets.',
      note: 'The book says under `physics` what follows from what.',
    }),
});

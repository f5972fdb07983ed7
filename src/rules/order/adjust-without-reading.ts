// Something is turned without a reading that says how far.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'adjust-without-reading',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('adjust-without-reading', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} turns \`${violation.value ?? ''}\` although nothing that it moves has been read`,
      help: 'Measure a value that it moves in a step before.',
      note: 'The turn is worked out from a fresh reading; DOE-STD-1054: the as-found reading precedes the first adjustment.',
    }),
});

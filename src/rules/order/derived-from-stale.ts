// A derived value decided from a reading that no longer holds.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, where } from './words.js';

export default rule({
  id: 'derived-from-stale',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('derived-from-stale', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${capital(where(violation))} decides \`${violation.value ?? ''}\` from \`${violation.input ?? ''}\`, which ${violation.reading === 'absent' ? 'has not been read' : 'is no longer fresh'} there`,
      help: `Read \`${violation.input ?? ''}\` again in this step or before it.`,
    }),
});

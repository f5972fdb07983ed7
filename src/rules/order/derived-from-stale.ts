// A derived value decided from a reading that no longer holds.

import { rule } from '../rule.js';
import { helpFor } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, where } from './words.js';

export default rule({
  id: 'derived-from-stale',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('derived-from-stale', proof, context),
  say: (violation) => {
    const input = code(violation.input ?? '');
    const how = violation.reading === 'absent' ? 'has not been read' : 'may have changed since it was read';
    return sayOf(violation, {
      message: `${capital(where(violation))} works out ${code(violation.value ?? '')} from ${input}, which ${how}`,
      help: helpFor(violation, `Before ${where(violation)}, add a step that measures ${input}`, [
        `measure ${code(violation.value ?? '')} only after ${input}`,
      ]),
    });
  },
});

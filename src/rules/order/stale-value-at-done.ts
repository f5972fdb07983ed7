// A value that was adjusted and not read again.

import { rule } from '../rule.js';
import { helpFor } from './help.js';
import { readingFaultsOf, valueNames } from './readings.js';
import { sayOf } from './violation.js';

export default rule({
  id: 'stale-value-at-done',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => readingFaultsOf('value-stale', proof, context),
  say: ({ violation, values }) =>
    sayOf(violation, {
      message: `${valueNames(values)} may have changed here and ${values.length > 1 ? 'are' : 'is'} not read again before \`done\``,
      help: helpFor(violation, `On the way to \`done\`, add a step that measures ${valueNames(values)}`),
      note: 'The as-left reading follows the last adjustment (DOE-STD-1054).',
    }),
});

// A value that was adjusted and not read again.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { where } from './words.js';

export default rule({
  id: 'stale-value-at-done',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('value-stale', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`done\` is reached after ${where(violation)} although \`${violation.value ?? ''}\` was adjusted after it was last read`,
      help: `Read \`${violation.value ?? ''}\` again after the last adjustment.`,
      note: 'DOE-STD-1054: the as-left reading follows the last adjustment.',
    }),
});

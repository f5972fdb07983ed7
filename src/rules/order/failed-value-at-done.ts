// A value that may have failed, or was never read, where the work counts as done.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { where } from './words.js';

export default rule({
  id: 'failed-value-at-done',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('value-not-passed-at-done', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `\`done\` is reached after ${where(violation)} although \`${violation.value ?? ''}\` ${violation.reading === 'absent' ? 'was not read' : 'may have failed'}`,
      help: 'Send a failing reading somewhere else, or read it once more before the end.',
    }),
});

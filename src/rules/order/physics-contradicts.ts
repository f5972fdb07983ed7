// Laws of physics of the book that contradict each other.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { where } from './words.js';

export default rule({
  id: 'physics-contradicts',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('physics-conflict', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `After ${where(violation)} the \`physics\` of the book contradict each other and never come to rest`,
      help: 'Mend the entries of `physics` that set the same state to different values.',
    }),
});

// Steps that may go round for ever.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { listed } from './words.js';

export default rule({
  id: 'loop-without-bound',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('unbounded-loop', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `Steps ${listed(
        violation.cycle.map((step) => `\`${step}\``),
        'and',
      )} may go round without end`,
      help: 'Give the branch that goes back `at-most` and `else`.',
      note: 'DOE-STD-1029: a repeated step says until what, how often at most, and what then.',
    }),
});

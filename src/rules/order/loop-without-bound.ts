// Steps that may go round for ever.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { code, listed } from './words.js';

export default rule({
  id: 'loop-without-bound',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('unbounded-loop', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `${roundOf(violation.cycle)} may be repeated without end`,
      help: `Count the branch: \`{ go: ${violation.cycle[0] ?? ''}, at-most: 3, else: call-service }\`.`,
      note: 'A repeated step says until what, how often at most, and what then (DOE-STD-1029).',
    }),
});

function roundOf(cycle: readonly string[]): string {
  return `${cycle.length > 1 ? 'Steps' : 'Step'} ${listed(cycle.map(code), 'and')}`;
}

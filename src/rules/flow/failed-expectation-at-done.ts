// An expectation that was not met, and a branch that says all is well.

import type { Branch } from '../../model/procedure.js';
import { rule } from '../rule.js';

export default rule({
  id: 'failed-expectation-at-done',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }) {
    for (const { id, expect, otherwise } of steps) {
      const ends = branchesOf(otherwise).filter(({ go }) => go.value === 'done');
      for (const { go } of ends) {
        const related = expect ? [{ message: 'what is expected', at: expect.at }] : [];
        yield { at: go.at, related, data: { step: id.value, counted: go !== otherwise?.go } };
      }
    }
  },
  say: ({ step, counted }) => ({
    message: `Where the expectation of \`${step}\` is not met${counted ? ' as often as it may be tried' : ''}, the procedure is done`,
    help: 'Let it lead to `stop` or `call-service`, or to a step that mends it.',
    note: '`done` says that all is well, and the machine goes to work.',
  }),
});

function branchesOf(branch: Branch | undefined): readonly Branch[] {
  return branch ? [branch, ...branchesOf(branch.otherwise)] : [];
}

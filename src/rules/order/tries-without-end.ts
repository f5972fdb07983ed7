// A way back that may be taken more often than anybody would.

import type { Branch, Step } from '../../model/procedure.js';
import { rule } from '../rule.js';

/** Times that a person tries again before something else is tried. */
const most = 9;

export default rule({
  id: 'tries-without-end',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }) {
    for (const { atMost } of steps.flatMap((step) => branchesOf(step))) {
      if (atMost && atMost.value > most) yield { at: atMost.at, data: { times: atMost.value } };
    }
  },
  say: ({ times }) => ({
    message: `This way back may be taken ${times} times, more than anybody tries the same thing`,
    help: `Write a number up to ${most}, and after \`else\` what is done then.`,
    note: 'What has not helped after a few times does not help later; and a digit too many looks like this.',
  }),
});

function branchesOf({ otherwise, then, when, answers }: Step): readonly Branch[] {
  const written = [otherwise, then, ...when.values(), ...answers.map(({ branch }) => branch)];
  return written.flatMap((branch) => (branch ? withElse(branch) : []));
}

function withElse(branch: Branch): readonly Branch[] {
  return [branch, ...(branch.otherwise ? withElse(branch.otherwise) : [])];
}

// A procedure that promises what it leaves behind and never comes to its end.

import { rule } from '../rule.js';

export default rule({
  id: 'never-done',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }) {
    const promised = variant.procedure.leaves.get('done') ?? [];
    const [first] = promised;
    if (!result.complete || !first || result.ends.size === 0 || result.ends.has('done')) return;
    yield { at: first.at, data: { ends: [...result.ends].sort() } };
  },
  say: ({ ends }) => ({
    message: `No path comes to \`done\`, where this is promised: all end at ${ends.map((end) => `\`${end}\``).join(' or ')}`,
    help: 'Let the last step of the good path say `then: done`, or take `leaves` out.',
    note: 'Steps go on to the next one below: a good path that is not sent to `done` runs into the steps for what went wrong.',
  }),
});

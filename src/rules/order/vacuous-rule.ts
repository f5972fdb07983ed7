// A safety rule that no procedure of the book ever triggers.

import { rule } from '../rule.js';

export default rule({
  id: 'vacuous-rule',
  severity: 'hint',
  needs: 'proofs',
  *run(proofs, { resolved }) {
    const triggered = new Set(proofs.flatMap(({ result }) => [...result.triggered]));
    for (const { id, at } of resolved.world.rules) if (!triggered.has(id)) yield { at, data: { id } };
  },
  say: ({ id }) => ({
    message: `No procedure ever comes to where the safety rule \`${id}\` speaks`,
    help: 'Look whether its `when` says what was meant.',
    note: 'A rule that is never triggered protects nobody, and a slip in it would not show.',
  }),
});

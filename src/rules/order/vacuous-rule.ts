// A safety rule that no procedure of the book ever triggers.

import { rule } from '../rule.js';

export default rule({
  id: 'vacuous-rule',
  severity: 'hint',
  needs: 'proofs',
  *run(proofs, { resolved, isPart }) {
    if (isPart) return;
    // What was not proved to the end may trigger any rule.
    const begun = proofs.filter(({ result }) => result.violations.every(({ kind }) => kind !== 'start-impossible'));
    if (begun.length < resolved.variants.length || begun.some(({ result }) => !result.complete)) return;
    const triggered = new Set(proofs.flatMap(({ result }) => [...result.triggered]));
    for (const { id, when, at } of resolved.world.rules)
      if (!triggered.has(id)) yield { at: when[0]?.at ?? at, data: { id } };
  },
  say: ({ id }) => ({
    message: `No procedure ever comes to where the safety rule \`${id}\` holds`,
    help: 'Look whether its `when` says what was meant.',
    note: 'A rule that is never triggered protects nobody, and a slip in it would not show.',
  }),
});

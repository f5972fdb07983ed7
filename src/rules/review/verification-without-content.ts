// Trials on machines that do not say what was tried, so that a later change would go unnoticed. One hint a procedure.

import { rule } from '../rule.js';
import { verifiedContents } from './edited-after-verification.js';

export default rule({
  id: 'verification-without-content',
  severity: 'hint',
  needs: 'procedure',
  *run(procedure, context) {
    const without = [...verifiedContents(procedure, context)].filter(({ verification }) => !verification.content);
    const [first, ...others] = without.map(({ verification }) => verification);
    if (!first) return;
    yield {
      at: first.machine.at,
      related: others.map(({ machine }) => ({ message: 'nor here', at: machine.at })),
      data: without.map(({ verification, now }) => ({ machine: verification.machine.value, now })),
    };
  },
  say: (entries: readonly { readonly machine: string; readonly now: string }[]) => ({
    message: 'It is not written down here what was tried, so that a later change would not show',
    help: `If the procedure is still what was tried, add ${entries
      .map(({ machine, now }) => `\`content: ${now}\` to the entry of \`${machine}\``)
      .join(', ')}.`,
    note: 'These digits and letters stand for every step, number and branch of the procedure for that machine.',
  }),
});

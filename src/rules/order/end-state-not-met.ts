// What the procedure promises to leave behind, and may not.

import type { Violation } from '../../order/result.js';
import { rule, type Said } from '../rule.js';
import { bringAbout } from './help.js';
import { grouped, sayOf, violationsOf } from './violation.js';
import { endWords, lossWords, missingWords } from './words.js';

export default rule({
  id: 'end-state-not-met',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    // What a step that leads to the end has missed is one slip, however many promises come of it.
    const all = violationsOf('leaves-not-met', proof, context);
    for (const findings of grouped(all, ({ data }) => `${data.end} ${data.place?.number}`)) {
      const [first] = findings;
      if (first) yield { ...first, data: { first: first.data, others: findings.slice(1).map(({ data }) => data) } };
    }
  },
  say: ({ first, others }) => sayAll(first, others),
});

function sayAll(first: Violation, others: readonly Violation[]): Said {
  const missing = [first, ...others].flatMap((each) => each.missing);
  const losses = others.map((each) => lossWords(each)).filter((loss) => loss !== undefined);
  return sayOf(first, {
    message: `What \`leaves\` promises does not hold at ${endWords(first)}: ${missingWords(missing)}`,
    help: bringAbout({ ...first, missing }, ['mend `leaves`']),
    note: [...new Set(losses), 'It is proved on every path, since other procedures build on it.'].join(' '),
  });
}

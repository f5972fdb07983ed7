// A smallest turn that is larger than the range.

import { compare, larger, negate, zero } from '../../calc/rational.js';
import { rule } from '../rule.js';

export default rule({
  id: 'adjuster-cannot-turn',
  severity: 'error',
  needs: 'variant',
  *run({ procedure }) {
    for (const adjuster of procedure.adjusters) {
      const { range, smallest, source, shown } = adjuster;
      if (!smallest || !range.low || !range.high) continue;
      const most = larger(larger(range.high, negate(range.low)), zero);
      if (compare(smallest, most) <= 0) continue;
      yield {
        at: source.smallest?.at ?? source.idAt,
        related: [{ message: `the range is ${shown.range}`, at: source.range.at }],
        data: { id: adjuster.id, smallest: shown.smallest ?? '', range: shown.range },
      };
    }
  },
  say: ({ id, smallest, range }) => ({
    message: `The smallest turn of \`${id}\`, ${smallest}, is larger than its range, ${range}`,
    help: 'Mend `smallest` or `range`: one of them is a slip.',
  }),
});

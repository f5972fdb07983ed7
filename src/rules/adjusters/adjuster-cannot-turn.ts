// A smallest turn that is larger than the range.

import { rule } from '../rule.js';
import { isStuck } from './reach.js';

export default rule({
  id: 'adjuster-cannot-turn',
  severity: 'error',
  needs: 'variant',
  *run({ procedure }) {
    for (const adjuster of procedure.adjusters) {
      if (!isStuck(adjuster)) continue;
      const { source, shown } = adjuster;
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

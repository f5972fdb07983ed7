// A result of a worksheet that decides nothing: it passes whatever is written into the rows.

import { rule } from '../rule.js';
import { isIdle, isImpossible, reachesOf, reachFacts } from './worksheet-reach.js';

export default rule({
  id: 'worksheet-limits-never-fail',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure: { worksheets } }) {
    for (const worksheet of worksheets) {
      const reaches = reachesOf(worksheet);
      if (reaches.some(isImpossible)) continue;
      for (const reach of reaches.filter(isIdle))
        yield { at: reach.at, data: { ...reachFacts(reach), worksheet: worksheet.id } };
    }
  },
  say: ({ id, limits, range, worksheet }) => ({
    message: `\`${id}\` can never miss its limits, ${limits}: whatever is written into \`${worksheet}\`, it comes to ${range}`,
    help: 'Mend the limits, their sign and whether they say `at most` or `at least`; or take them out.',
    note: 'A check that cannot fail checks nothing, and a slip in its limits would not show.',
  }),
});

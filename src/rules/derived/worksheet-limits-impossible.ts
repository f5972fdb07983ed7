// A result of a worksheet that can never pass, whatever is written into the rows.

import { rule } from '../rule.js';
import { isImpossible, reachesOf, reachFacts } from './worksheet-reach.js';

export default rule({
  id: 'worksheet-limits-impossible',
  severity: 'error',
  needs: 'variant',
  *run({ procedure: { worksheets } }) {
    for (const worksheet of worksheets) {
      const reach = reachesOf(worksheet).find(isImpossible);
      if (reach) yield { at: reach.at, data: { ...reachFacts(reach), worksheet: worksheet.id } };
    }
  },
  say: ({ id, limits, range, worksheet }) => ({
    message: `\`${id}\` can never be ${limits}: whatever is written into \`${worksheet}\`, it comes to ${range}`,
    help: 'Mend the limits, their sign and whether they say `at most` or `at least`; or mend what it is worked out from.',
    note: 'Every machine would fail, also a good one.',
  }),
});

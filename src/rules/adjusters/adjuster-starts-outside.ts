// A range that leaves out where the adjuster stands.

import { rule } from '../rule.js';
import { startsOutside } from './reach.js';

export default rule({
  id: 'adjuster-starts-outside',
  severity: 'error',
  needs: 'variant',
  *run({ procedure }) {
    for (const adjuster of procedure.adjusters.filter(startsOutside)) {
      yield { at: adjuster.source.range.at, data: { id: adjuster.id, range: adjuster.shown.range } };
    }
  },
  say: ({ id, range }) => ({
    message: `The range of \`${id}\`, ${range}, leaves out 0, which is where it stands before it is turned`,
    help: 'Write the range from where it stands, such as `-12 to 12 deg`: a sign may be lost.',
    note: 'Turns are counted from where the adjuster stands at first.',
  }),
});

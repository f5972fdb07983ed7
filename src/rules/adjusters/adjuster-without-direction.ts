// An adjuster of which nobody says which way is positive.

import { rule } from '../rule.js';

export default rule({
  id: 'adjuster-without-direction',
  severity: 'warning',
  needs: 'procedure',
  *run({ adjusters }) {
    const told = new Set<number>();
    for (const { id, idAt, positive } of adjusters) {
      if (positive || told.has(idAt.start)) continue;
      told.add(idAt.start);
      yield { at: idAt, data: { id } };
    }
  },
  say: ({ id }) => ({
    message: `Nobody says which way of turning \`${id}\` is positive`,
    help: 'Add `positive:` with the way and where it is seen from, as in `positive: clockwise, seen from the left end of the header`.',
    note: 'The turn is worked out with a sign. Turned the other way it makes the fault twice as large.',
  }),
});

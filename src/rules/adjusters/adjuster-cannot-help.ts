// An adjuster that brings no reading inside which is outside.

import { rule } from '../rule.js';
import { isStuck, movedValues } from './reach.js';

export default rule({
  id: 'adjuster-cannot-help',
  severity: 'error',
  needs: 'variant',
  *run({ procedure }) {
    const moved = movedValues(procedure);
    for (const adjuster of procedure.adjusters) {
      // that it can make no turn at all is a fault of its own
      if (isStuck(adjuster)) continue;
      const own = moved.filter((one) => one.adjuster === adjuster);
      const known = own.filter(({ reach }) => reach !== undefined);
      if (own.length === 0 || known.length < own.length || known.some(({ reach }) => (reach?.share ?? 1) > 0)) continue;
      const related = own.map(({ value }) => ({
        message: `\`${value.id}\` must be ${value.shown.acceptance}`,
        at: value.limitsAt,
      }));
      yield { at: adjuster.source.idAt, related, data: { id: adjuster.id, values: own.map(({ value }) => value.id) } };
    }
  },
  say: ({ id, values }) => ({
    message: `\`${id}\` can never bring ${values.map((value) => `\`${value}\``).join(' or ')} inside: no reading outside the limits comes in by any turn`,
    help: 'Mend its `range`, its `smallest` or what it `moves`: one of them is a slip.',
    note: 'A person would turn and read again without end.',
  }),
});

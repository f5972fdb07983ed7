// An adjuster that brings no reading inside which is outside.

import type { ResolvedAdjuster } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';
import { hasFewTurns, isStuck, type Moved, movedValues } from './reach.js';

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
      const at = placeOf(adjuster, own);
      const related = [
        ...(adjuster.source.smallest ? [{ message: 'its smallest turn', at: adjuster.source.smallest.at }] : []),
        ...own.map((one) => ({ message: `how far a turn moves \`${one.value.id}\``, at: one.at })),
        ...own.map(({ value }) => ({
          message: `\`${value.id}\` must be ${value.shown.acceptance}`,
          at: value.limitsAt,
        })),
      ].filter((one) => one.at !== at);
      yield { at, related, data: { id: adjuster.id, values: own.map(({ value }) => value.id) } };
    }
  },
  say: ({ id, values }) => ({
    message: `\`${id}\` can never bring ${values.map((value) => `\`${value}\``).join(' or ')} inside: no reading outside the limits comes in by any turn`,
    help: 'Mend its `range`, its `smallest` or what it `moves`: one of them is a slip.',
    note: 'A person would turn and read again without end.',
  }),
});

/** Where the slip most likely is: in the least turn, which jumps over all that it could mend, or in how far it moves. */
function placeOf(adjuster: ResolvedAdjuster, [first]: readonly Moved[]): Span {
  const { source } = adjuster;
  return (hasFewTurns(adjuster) ? source.smallest?.at : first?.at) ?? source.idAt;
}

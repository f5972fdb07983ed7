// A smallest turn that moves a value by more than its limits are wide.

import { absolute, multiply, subtract } from '../../calc/rational.js';
import type { ResolvedValue } from '../../model/resolved.js';
import { rule } from '../rule.js';
import { amount, hasFewTurns, movedValues } from './reach.js';

export default rule({
  id: 'adjuster-step-over-window',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const { adjuster, value, reach, effect, at } of movedValues(procedure)) {
      if (!reach?.jumps || !adjuster.smallest || reach.share === 0) continue;
      const step = amount(value, absolute(multiply(effect, adjuster.smallest)));
      const own = adjuster.source.smallest?.at ?? at;
      const isOwn = hasFewTurns(adjuster);
      const related = [
        isOwn ? { message: `how far a turn moves \`${value.id}\``, at } : { message: 'its smallest turn', at: own },
        { message: `\`${value.id}\` must be ${value.shown.acceptance}`, at: value.limitsAt },
      ];
      yield {
        at: isOwn ? own : at,
        related,
        data: {
          id: adjuster.id,
          value: value.id,
          step,
          smallest: adjuster.shown.smallest ?? '',
          limits: value.shown.acceptance,
          width: widthOf(value),
        },
      };
    }
  },
  say: ({ id, value, step, smallest, limits, width }) => ({
    message: `The smallest turn of \`${id}\`, ${smallest}, moves \`${value}\` by ${step}, and its limits ${limits} are ${width} wide`,
    help: 'Mend `smallest` or the effect, or widen the limits if they may be wider.',
    note: 'A person would step over the limits from one side to the other.',
  }),
});

/** How far apart its limits are; a value that is jumped over has both. */
function widthOf(value: ResolvedValue): string {
  const { low, high } = value.acceptance ?? {};
  return low && high ? amount(value, subtract(high, low)) : '';
}

// An adjuster whose whole travel is short beside the limits that it is to bring a value into.

import { rule } from '../rule.js';
import { movedValues } from './reach.js';

const leastShare = 0.5;

export default rule({
  id: 'adjuster-reach-short',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const { adjuster, value, reach, at } of movedValues(procedure)) {
      // A value that it moves beside the one it is turned for may move little: that is as it should be.
      if (adjuster.watch !== undefined && adjuster.watch !== value.id) continue;
      if (adjuster.watch === undefined && adjuster.moves.size > 1) continue;
      if (reach?.travelShare === undefined || reach.travelShare >= leastShare || reach.share === 0) continue;
      const related = [
        { message: `how far a turn moves \`${value.id}\``, at },
        { message: `\`${value.id}\` must be ${value.shown.acceptance}`, at: value.limitsAt },
      ];
      yield {
        at: adjuster.source.range.at,
        related,
        data: {
          id: adjuster.id,
          value: value.id,
          percent: Math.round(reach.travelShare * 100),
          limits: value.shown.acceptance,
        },
      };
    }
  },
  say: ({ id, value, percent, limits }) => ({
    message: `\`${id}\` moves \`${value}\` over all its range by ${percent}\u00a0% of the width of its limits ${limits}, expected at least 50\u00a0%`,
    help: 'Mend its `range` or the effect: a decimal point may be off.',
    note: 'So short a reach helps only a reading that is nearly inside already.',
  }),
});

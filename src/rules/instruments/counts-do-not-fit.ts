// An instrument whose range, resolution and counts do not fit each other.

import { compare, divide, rational, sign, subtract } from '../../calc/rational.js';
import { rule } from '../rule.js';
import { plainLimits } from './plain-limits.js';

export default rule({
  id: 'counts-do-not-fit',
  severity: 'error',
  needs: 'book',
  *run({ instruments }) {
    for (const { id, counts, range, resolution } of instruments.values()) {
      const whole = plainLimits(range);
      const step = plainLimits(resolution);
      if (!counts || !whole?.low || !whole.high || !step?.low || sign(step.low) <= 0) continue;
      const steps = divide(subtract(whole.high, whole.low), step.low);
      if (compare(steps, rational(counts.value)) === 0) continue;
      const related = [
        { message: 'the range', at: whole.at },
        { message: 'the resolution', at: step.at },
      ];
      const about =
        steps.den === 1n ? String(steps.num) : `about ${(Number(steps.num) / Number(steps.den)).toPrecision(3)}`;
      yield { at: counts.at, related, data: { id, counts: counts.value, steps: about } };
    }
  },
  say: ({ id, counts, steps }) => ({
    message: `\`${id}\` has ${counts} counts, and its range holds ${steps} steps of its resolution`,
    help: 'Mend whichever of the three is wrong.',
    note: 'Counts are the range divided by the resolution. Given as well, they guard both against a slip.',
  }),
});

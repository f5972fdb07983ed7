// An instrument that is said to be right to less than half of its last digit.

import { parseAccuracy } from '../../calc/accuracy.js';
import { compare, divide, rational, sign } from '../../calc/rational.js';
import { rule } from '../rule.js';
import { plainLimits } from './plain-limits.js';

export default rule({
  id: 'accuracy-finer-than-resolution',
  severity: 'warning',
  needs: 'book',
  *run({ instruments }) {
    for (const { id, accuracy, resolution } of instruments.values()) {
      const step = plainLimits(resolution);
      if (accuracy?.kind !== 'one' || !step?.low || sign(step.low) <= 0) continue;
      const parsed = parseAccuracy(accuracy.value.value);
      // a share of the reading may come to anything
      if (!parsed.ok || sign(parsed.value.ofReading) > 0 || sign(parsed.value.ofRange) > 0) continue;
      const { constant, digits } = parsed.value;
      if (sign(digits) > 0 || sign(constant) <= 0 || compare(constant, divide(step.low, rational(2))) >= 0) continue;
      const related = [{ message: 'the resolution', at: step.at }];
      yield { at: accuracy.value.at, related, data: { id, accuracy: accuracy.value.value.trim() } };
    }
  },
  say: ({ id, accuracy }) => ({
    message: `\`${id}\` is said to be right to ${accuracy}, less than half of the smallest change that it shows`,
    help: 'Mend the accuracy or the resolution: what the maker gives is at least half of the last digit.',
    note: 'A reading is rounded to the last digit, which alone is an error of up to half of it (JCGM 100, F.2.2.1).',
  }),
});

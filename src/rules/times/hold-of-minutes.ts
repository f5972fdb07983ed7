// Something that is to be held for minutes: `3 to 5 min` for `3 to 5 s`.

import { compare, rational } from '../../calc/rational.js';
import { rule } from '../rule.js';
import { holdsOf, longestOf } from './hold-longer-than-time.js';

/** Two minutes, in seconds: longer than a key, a lever or a button is held by hand (common practice, no source). */
const longest = rational(120);

export default rule({
  id: 'hold-of-minutes',
  severity: 'warning',
  needs: 'procedure',
  *run({ time, steps }) {
    const most = time && longestOf(time);
    for (const { step, at, least, text } of holdsOf(steps)) {
      // longer than all of the procedure is told as that
      if (compare(least, longest) <= 0 || (most && compare(least, most) > 0)) continue;
      yield { at, data: { step, text } };
    }
  },
  say: ({ step, text }) => ({
    message: `\`${step}\` is held for ${text}: longer than a hand keeps a key down`,
    help: 'Mend the number or its unit, `s` for `min`; or write `wait`, if nothing is held meanwhile.',
    note: 'Who lets go sooner has not done the step, and a page does not know it.',
  }),
});

// A target that would itself fail.

import { liesWithin } from '../../calc/limits.js';
import { rule } from '../rule.js';

export default rule({
  id: 'nominal-outside-limits',
  severity: 'error',
  needs: 'value',
  *run({ value }) {
    if (!value.nominal || !value.tolerance || liesWithin(value.nominal, value.tolerance)) return;
    const at = value.source.nominal?.at ?? value.limitsAt;
    const related = [{ message: 'the limits are here', at: value.limitsAt }];
    yield { at, related, data: { id: value.id, nominal: value.shown.nominal, limits: value.shown.tolerance } };
  },
  say: ({ id, nominal, limits }) => ({
    message: `The nominal ${nominal} of \`${id}\` is outside its own limits, ${limits}`,
    help: 'Mend the nominal or the limits: one of them is a slip.',
    note: 'Whoever sets the machine to the nominal would be told that it is wrong.',
  }),
});

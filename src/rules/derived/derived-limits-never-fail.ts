// A derived value that decides nothing: its inputs already decide it.

import { rule } from '../rule.js';
import { judgeDerived } from './ranges.js';
import { derivedFacts, derivedPlaces, sayInputs } from './words.js';

export default rule({
  id: 'derived-limits-never-fail',
  severity: 'warning',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    const verdict = judgeDerived(value, procedure, 'tolerance');
    if (!verdict?.neverFails) return;
    yield {
      at: value.limitsAt,
      related: derivedPlaces(value, procedure.values, 'tolerance'),
      data: derivedFacts(value, verdict),
    };
  },
  say: ({ id, limits, range, inputs }) => ({
    message: `\`${id}\` can never miss its limits, ${limits}: with ${sayInputs(inputs)} inside theirs it comes to ${range}`,
    help: 'Narrow the limits of the derived value, or take them out.',
    note: 'A check that cannot fail checks nothing, and a slip in its limits would not show.',
  }),
});

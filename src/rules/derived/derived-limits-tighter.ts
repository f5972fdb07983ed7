// A derived value that asks more than its inputs do.

import { rule } from '../rule.js';
import { judgeDerived } from './ranges.js';
import { derivedFacts, derivedPlaces, sayInputs } from './words.js';

export default rule({
  id: 'derived-limits-tighter',
  severity: 'hint',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    const verdict = judgeDerived(value, procedure, 'acceptance');
    if (!verdict || verdict.impossible || !verdict.canFail) return;
    yield {
      at: value.limitsAt,
      related: derivedPlaces(value, procedure.values, 'acceptance'),
      data: derivedFacts(value, verdict),
    };
  },
  say: ({ id, limits, range, inputs }) => ({
    message: `\`${id}\` can miss its limits in use, ${limits}, with ${sayInputs(inputs)} inside theirs: it comes to ${range}`,
    help: 'Nothing to mend if that is the point of it: a failing one has somewhere to go.',
  }),
});

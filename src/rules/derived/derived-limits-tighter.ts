// A derived value that asks more than its inputs do.

import { rule } from '../rule.js';
import { judgeDerived } from './ranges.js';
import { derivedFacts, derivedPlaces } from './words.js';

export default rule({
  id: 'derived-limits-tighter',
  severity: 'hint',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    const verdict = judgeDerived(value, procedure, 'acceptance');
    if (!verdict || verdict.impossible || !verdict.canFail) return;
    yield { at: value.limitsAt, related: derivedPlaces(value, procedure.values), data: derivedFacts(value, verdict) };
  },
  say: ({ id, limits, range, inputs }) => ({
    message: `\`${id}\` can be outside ${limits} while ${inputs.map((name) => `\`${name}\``).join(' and ')} are inside: they make it ${range}`,
    help: 'Nothing to mend if that is the point of it: a failing one has somewhere to go.',
  }),
});

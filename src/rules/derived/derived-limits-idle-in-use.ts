// A derived value that decides nothing with the limits in use, or with one of its ends.

import { rule } from '../rule.js';
import { judgeDerived } from './ranges.js';
import { derivedFacts, derivedPlaces, sayInputs } from './words.js';

export default rule({
  id: 'derived-limits-idle-in-use',
  severity: 'hint',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    const byBook = judgeDerived(value, procedure, 'tolerance');
    if (!byBook || byBook.neverFails || byBook.impossible) return;
    const inUse = judgeDerived(value, procedure, 'acceptance');
    const verdict = inUse?.neverFails ? inUse : byBook;
    const side = inUse?.neverFails ? undefined : byBook.idle;
    if (!inUse?.neverFails && !side) return;
    const related = derivedPlaces(value, procedure.values, side === undefined ? 'acceptance' : 'tolerance');
    yield { at: value.limitsAt, related, data: { ...derivedFacts(value, verdict), side } };
  },
  say: ({ id, limits, range, inputs, side }) => ({
    message:
      side === undefined
        ? `\`${id}\` can never miss its limits in use, ${limits}: with ${sayInputs(inputs)} inside theirs it comes to ${range}`
        : `\`${id}\` can never be ${side === 'low' ? 'below' : 'above'} its limits, ${limits}: with ${sayInputs(inputs)} inside theirs it comes to ${range}`,
    help: 'Leave it if it is meant so; else look at the limits once more.',
  }),
});

// A derived value that can never pass once its inputs do.

import { rule } from '../rule.js';
import { judgeDerived } from './ranges.js';
import { derivedFacts, derivedPlaces, sayInputs } from './words.js';

export default rule({
  id: 'derived-limits-impossible',
  severity: 'error',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    for (const kind of ['tolerance', 'acceptance'] as const) {
      const verdict = judgeDerived(value, procedure, kind);
      if (!verdict?.impossible) continue;
      yield {
        at: value.limitsAt,
        related: derivedPlaces(value, procedure.values, kind),
        data: { ...derivedFacts(value, verdict), kind },
      };
      return;
    }
  },
  say: ({ id, limits, range, inputs, kind }) => ({
    message: `\`${id}\` can never be ${limits}${kind === 'acceptance' ? ', its limits in use' : ''}: with ${sayInputs(inputs)} inside their limits it comes to ${range}`,
    help: 'Mend the limits of the derived value, or of what it is worked out from: one of them is a slip.',
    note: 'Every machine would fail, also a good one.',
  }),
});

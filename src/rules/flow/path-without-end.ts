// A step from which no end can be reached.

import { stepIdAt } from '../order/words.js';
import { rule } from '../rule.js';

export default rule({
  id: 'path-without-end',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }, { book }) {
    const loops = result.violations.some(({ kind }) => kind === 'unbounded-loop');
    if (!result.complete || loops) return;
    for (const place of result.endless) {
      if (place.procedure !== variant.procedure.id || place.calls.length > 0) continue;
      yield { at: stepIdAt(place, book), data: { step: place.step } };
    }
  },
  say: ({ step }) => ({
    message: `From step \`${step}\` no path comes to an end`,
    help: 'Let it lead on to `done`, `stop` or `call-service`.',
  }),
});

// A step that no path leads to.

import { stepIdAt } from '../order/words.js';
import { rule } from '../rule.js';

export default rule({
  id: 'unreachable-step',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }, { book }) {
    if (!result.complete) return;
    for (const place of result.unreachable) {
      // A step of a procedure that is run is reported where that procedure is proved for itself.
      if (place.procedure !== variant.procedure.id || place.calls.length > 0) continue;
      yield { at: stepIdAt(place, book), data: { step: place.step } };
    }
  },
  say: ({ step }) => ({
    message: `No path leads to step \`${step}\``,
    help: 'Let a branch lead there, or take the step out.',
    note: 'A step that nobody comes to is missing from the work.',
  }),
});

// An order proof that met its bound.

import { rule } from '../rule.js';

export default rule({
  id: 'not-proved',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }) {
    if (!result.complete) yield { at: variant.procedure.source.title.at, data: { explored: result.explored } };
  },
  say: ({ explored }) => ({
    message: `The order of steps is not proved: after ${explored} states the proof had not seen all`,
    help: 'Cut the procedure in two, or require more at the start so that less is unknown.',
    note: 'What is not proved is not built: a fault may hide in what was not looked at.',
  }),
});

// An act that has to be done within some time, and no word of what to do when it was not.

import { rule } from '../rule.js';
import { deadlineOf } from './deadlines.js';

export default rule({
  id: 'deadline-without-branch',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }, { book }) {
    const [first = 'en'] = book.settings.languages;
    for (const step of steps) {
      const deadline = step.otherwise || step.ask ? undefined : deadlineOf(step, first);
      if (deadline) yield { at: deadline.at, data: { step: step.id.value, deadline: deadline.words } };
    }
  },
  say: ({ step, deadline }) => ({
    message: `Step \`${step}\` is to be done \`${deadline}\`, and nothing says what to do when it was not`,
    help: 'Add `otherwise: { because: It took longer., go: … }` with the step to begin again from.',
    note: 'DOE-STD-1029: a step with a time limit says what to do when the time has passed.',
  }),
});

// A branch for an expectation that was not met, in a step that expects nothing.

import { rule } from '../rule.js';
import { deadlineOf } from './deadlines.js';

export default rule({
  id: 'otherwise-without-expect',
  severity: 'warning',
  needs: 'procedure',
  *run({ steps }, { book }) {
    const [first = 'en'] = book.settings.languages;
    const told = new Set<number>();
    for (const step of steps) {
      const { id, expect, otherwise } = step;
      // a step that must be done within some time says by that when the branch is taken
      if (!otherwise || expect || deadlineOf(step, first) || told.has(otherwise.at.start)) continue;
      told.add(otherwise.at.start);
      yield { at: otherwise.at, data: { step: id.value, go: otherwise.go.value } };
    }
  },
  say: ({ step, go }) => ({
    message: `\`otherwise\` of \`${step}\` leads to \`${go}\`, and the step does not say what is to be seen`,
    help: 'Say under `expect` what is seen when the step has worked; or take `otherwise` out.',
    note: 'The page asks whether it was so, and nobody knows what: the branch is then taken by guess, or never.',
  }),
});

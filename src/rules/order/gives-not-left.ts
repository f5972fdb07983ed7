// A procedure that says what it gives, and does not say that it leaves it valid.

import type { Book } from '../../model/book.js';
import type { Conditions, StateCondition } from '../../model/conditions.js';
import { rule } from '../rule.js';

export default rule({
  id: 'gives-not-left',
  severity: 'warning',
  needs: 'procedure',
  *run({ gives, leaves }, { book }) {
    if (!gives || !book.states.has(gives.value)) return;
    const done = leaves.get('done');
    const left = done && conditionsIn(done, book).find(({ state }) => state.value === gives.value);
    if (left) return;
    const related = done ? [{ message: 'what is left at `done`', at: done.at }] : [];
    yield { at: gives.at, related, data: { state: gives.value } };
  },
  say: ({ state }) => ({
    message: `This procedure gives \`${state}\`, and \`leaves\` does not say that it is valid at \`done\``,
    help: `Add \`${state}: valid\` to \`leaves\`: then it is proved on every path.`,
    note: 'After a change the unit is told to do this procedure for it: on a path that does not make it valid that is a false promise.',
  }),
});

function conditionsIn(conditions: Conditions, book: Book): readonly StateCondition[] {
  if (conditions.kind === 'map') return conditions.conditions;
  const bundle = book.bundles.get(conditions.name.value);
  return bundle ? conditionsIn(bundle.conditions, book) : [];
}

// Steps in any order that are not two: one alone, or one that stands twice.

import { rule } from '../rule.js';

export default rule({
  id: 'any-order-of-one',
  severity: 'warning',
  needs: 'procedure',
  *run({ anyOrder }) {
    for (const group of anyOrder) {
      const [first] = group;
      const twice = group.find(({ value }, i) => group.findIndex((one) => one.value === value) < i);
      const found = twice ?? (group.length === 1 ? first : undefined);
      if (found) yield { at: found.at, data: { step: found.value, twice: twice !== undefined } };
    }
  },
  say: ({ step, twice }) => ({
    message: twice
      ? `The step \`${step}\` stands twice in one list of \`any-order\``
      : `The step \`${step}\` stands alone in a list of \`any-order\``,
    help: 'Name at least two steps that may be done in any order, each once, or take the list out.',
    note: 'One of the two names is likely a slip, and the step that was meant keeps its order.',
  }),
});

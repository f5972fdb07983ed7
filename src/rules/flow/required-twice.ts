// One state that a procedure requires twice.

import { rule } from '../rule.js';

export default rule({
  id: 'required-twice',
  severity: 'error',
  needs: 'procedure',
  *run({ requires }) {
    const first = new Map<string, (typeof requires)[number]>();
    for (const requirement of requires.filter(({ only }) => !only)) {
      const { value, at } = requirement.state;
      const before = first.get(value);
      if (!before) first.set(value, requirement);
      else
        yield {
          at,
          related: [{ message: 'it is required here already', at: before.state.at }],
          data: { state: value },
        };
    }
  },
  say: ({ state }) => ({
    message: `\`${state}\` is required twice`,
    help: 'Say in one entry what it may be, and take the other out: one of them may be meant for another state.',
    note: 'Two entries for one state are mostly one for a state that is now missing.',
  }),
});

// Laws of physics of the book that contradict each other.

import { rule } from '../rule.js';
import { lawPlaces, lawsOf } from './laws.js';
import { sayOf, violationsOf } from './violation.js';
import { code, where } from './words.js';

export default rule({
  id: 'physics-contradicts',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const { data, at, related = [] } of violationsOf('physics-conflict', proof, context)) {
      const state = data.changed?.state ?? '';
      yield {
        at,
        related: [...related, ...lawPlaces(lawsOf(state, context.resolved.world.physics), state)],
        data: { violation: data, state },
      };
    }
  },
  say: ({ violation, state }) =>
    sayOf(violation, {
      message: `After ${where(violation)} the \`physics\` of the book sets ${code(state)} against itself and never comes to rest`,
      help: `In states.yaml, mend the entries of \`physics\` that set ${code(state)}, so that at no time two of them want different things.`,
    }),
});

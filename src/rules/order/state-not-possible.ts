// A step sets what cannot be.

import { rule } from '../rule.js';
import { helpFor } from './help.js';
import { forbiddingLaws, type LawFact, lawPlaces, lawsOf } from './laws.js';
import { sayOf, violationsOf } from './violation.js';
import { capital, code, stateWords, where } from './words.js';

export default rule({
  id: 'state-not-possible',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const { data, at, related = [] } of violationsOf('physics-forbids-set', proof, context)) {
      const state = data.changed?.state ?? '';
      const last = data.trace.at(-1);
      const named = (data.changed?.by === 'means' ? last?.means : last?.sets)?.find((each) => each.state === state);
      const laws = lawsOf(state, forbiddingLaws(data, context.resolved.world));
      yield { at, related: [...related, ...lawPlaces(laws, state)], data: { violation: data, state, named, laws } };
    }
  },
  say: ({ violation, state, named, laws }) => {
    const claim = named ? stateWords(named) : code(state);
    return sayOf(violation, {
      message: `${capital(where(violation))} ${violation.changed?.by === 'means' ? 'says that it is' : 'sets'} ${claim}, which \`physics\` does not allow there`,
      help: helpFor(violation, `Before ${where(violation)}, ${change(laws)}`, ['mend what this step says']),
    });
  },
});

function change(laws: readonly LawFact[]): string {
  const [only] = laws;
  if (laws.length === 1 && only?.ended !== undefined) return `add a step after which ${only.ended}`;
  return 'add a step that brings about what it takes';
}

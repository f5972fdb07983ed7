// Requirements that cannot all hold at once.

import { type Context, rule } from '../rule.js';
import { lawPlaces, lawsOf } from './laws.js';
import { sayOf, violationsOf } from './violation.js';
import { listed, stateName, stateWords } from './words.js';

export default rule({
  id: 'start-impossible',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const { data, at } of violationsOf('start-impossible', proof, context)) {
      const required = new Set(data.missing.map(({ state }) => state));
      const assumed = data.triggeredBy.filter(({ state }) => !required.has(state));
      const laws = data.triggeredBy.flatMap(({ state }) =>
        lawPlaces(lawsOf(state, context.resolved.world.physics), state),
      );
      yield { at, related: [...startPlaces(assumed, context), ...laws], data: { violation: data, assumed } };
    }
  },
  say: ({ violation, assumed }) =>
    sayOf(
      // What is missing here is not lost on a path.
      { ...violation, missing: [] },
      {
        message: `No machine can be so at the start: ${listed(violation.triggeredBy.map(stateWords), 'and')} ${violation.triggeredBy.length > 1 ? 'do not go together' : 'cannot be'}`,
        help:
          assumed.length > 0
            ? `Say of ${listed(assumed.map(stateName), 'and')} under \`requires\` what it is at the start, or mend what is required.`
            : 'Mend what is required, or the entry of `physics`.',
      },
    ),
});

function startPlaces(assumed: readonly { readonly state: string }[], { resolved }: Context) {
  return resolved.world.variables
    .filter(({ id }) => assumed.some(({ state }) => state === id))
    .map(({ id, start, at }) => ({
      message: `\`${id}\` is \`${start ?? ''}\` at the start unless \`requires\` says otherwise`,
      at,
    }));
}

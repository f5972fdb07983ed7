// Requirements that cannot all hold at once.

import type { Violation } from '../../order/result.js';
import { type Context, type Finding, rule } from '../rule.js';
import { lawPlaces, lawsOf } from './laws.js';
import { sayOf, violationsOf } from './violation.js';
import { listed, stateName, stateWords } from './words.js';

export default rule({
  id: 'start-impossible',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const found of violationsOf('start-impossible', proof, context)) {
      const { data, at } = narrowed(found, context);
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

// One law that is not kept is told alone: what else is required has no part in it.
function narrowed(found: Finding<Violation>, { resolved }: Context): Finding<Violation> {
  const { triggeredBy, missing } = found.data;
  const values = new Map(triggeredBy.map((one) => [one.state, one.values]));
  for (const { when, then } of resolved.world.physics) {
    const isSure = when.every(({ state, test }) => {
      const known = values.get(state);
      return known?.length && test.kind === 'words' && known.every((value) => test.words.includes(value));
    });
    const broken = then.find(({ state, test }) => {
      const known = values.get(state);
      return known?.length && test.kind === 'words' && !known.some((value) => test.words.includes(value));
    });
    if (!isSure || !broken) continue;
    const states = new Set([...when.map(({ state }) => state), broken.state]);
    const left = missing.filter(({ state }) => states.has(state));
    const data = { ...found.data, triggeredBy: triggeredBy.filter(({ state }) => states.has(state)), missing: left };
    return { ...found, at: left.at(-1)?.at ?? found.at, data };
  }
  return found;
}

function startPlaces(assumed: readonly { readonly state: string }[], { resolved }: Context) {
  return resolved.world.variables
    .filter(({ id }) => assumed.some(({ state }) => state === id))
    .map(({ id, start, at }) => ({
      message: `\`${id}\` is \`${start ?? ''}\` at the start unless \`requires\` says otherwise`,
      at,
    }));
}

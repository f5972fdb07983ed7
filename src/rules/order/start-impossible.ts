// Requirements that cannot all hold at once.

import type { ResolvedCondition, World } from '../../model/resolved.js';
import type { StateSet, Violation } from '../../order/result.js';
import { type Context, type Finding, rule } from '../rule.js';
import { lawPlaces, lawsOf } from './laws.js';
import { sayOf, violationsOf } from './violation.js';
import { listed, stateName, stateWords } from './words.js';

type Physics = World['physics'];

/** An entry of `physics`, and the state of which it says something. */
interface Law {
  readonly law: Physics[number];
  readonly state: string;
}

export default rule({
  id: 'start-impossible',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const found of violationsOf('start-impossible', proof, context)) {
      const { data, at, laws } = narrowed(found, context);
      const required = new Set(data.missing.map(({ state }) => state));
      const assumed = data.triggeredBy.filter(({ state }) => !required.has(state));
      const related = [
        ...startPlaces(assumed, context),
        ...laws.flatMap(({ law, state }) => lawPlaces(lawsOf(state, [law]), state)),
      ];
      yield { at, related, data: { violation: data, assumed } };
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

interface Narrowed extends Finding<Violation> {
  readonly laws: readonly Law[];
}

/** What does not go together is told alone: other requirements and other laws have no part in it. */
function narrowed(found: Finding<Violation>, { resolved }: Context): Narrowed {
  const { triggeredBy, missing } = found.data;
  const { physics } = resolved.world;
  const conflict = findConflict(triggeredBy, physics);
  if (!conflict) {
    const laws = triggeredBy.flatMap(({ state }) => physics.map((law) => ({ law, state })));
    return { ...found, laws: laws.filter(({ law, state }) => law.then.some((effect) => effect.state === state)) };
  }
  const left = missing.filter(({ state }) => conflict.states.has(state));
  const data = {
    ...found.data,
    triggeredBy: triggeredBy.filter(({ state }) => conflict.states.has(state)),
    missing: left,
  };
  return { ...found, at: left.at(-1)?.at ?? found.at, data, laws: conflict.laws };
}

/** What a state can be as far as it is known, and why. */
interface Known {
  readonly values: readonly string[];
  /** The states, as they are at the start, that it follows from. */
  readonly from: ReadonlySet<string>;
  readonly laws: readonly Law[];
}

/** Follows the laws from what is known until one leaves a state no value; undefined where no chain of them does. */
function findConflict(
  start: readonly StateSet[],
  physics: Physics,
): { readonly states: ReadonlySet<string>; readonly laws: readonly Law[] } | undefined {
  const known = new Map<string, Known>(
    start.map(({ state, values }) => [state, { values, from: new Set([state]), laws: [] }]),
  );
  for (let isMore = true; isMore; ) {
    isMore = false;
    for (const law of physics) {
      if (!law.when.every((condition) => isSure(condition, known))) continue;
      for (const effect of law.then) {
        const next = follow(law, effect, known);
        if (!next) continue;
        if (next.values.length === 0) return { states: next.from, laws: next.laws };
        known.set(effect.state, next);
        isMore = true;
      }
    }
  }
  return undefined;
}

function isSure({ state, test }: ResolvedCondition, known: ReadonlyMap<string, Known>): boolean {
  const values = known.get(state)?.values ?? [];
  return values.length > 0 && test.kind === 'words' && values.every((value) => test.words.includes(value));
}

/** What a law leaves of a state; undefined where it says nothing new. */
function follow(
  law: Physics[number],
  { state, test }: ResolvedCondition,
  known: ReadonlyMap<string, Known>,
): Known | undefined {
  if (test.kind !== 'words') return undefined;
  const before = known.get(state);
  const values = before ? before.values.filter((value) => test.words.includes(value)) : test.words;
  if (before?.values.length === values.length) return undefined;
  const causes = [...law.when.flatMap((one) => known.get(one.state) ?? []), ...(before ? [before] : [])];
  const laws = [...new Set(causes.flatMap((one) => one.laws)), { law, state }];
  return { values, from: new Set(causes.flatMap(({ from }) => [...from])), laws };
}

function startPlaces(assumed: readonly { readonly state: string }[], { resolved }: Context) {
  return resolved.world.variables
    .filter(({ id }) => assumed.some(({ state }) => state === id))
    .map(({ id, start, at }) => ({
      message: `\`${id}\` is \`${start ?? ''}\` at the start unless \`requires\` says otherwise`,
      at,
    }));
}

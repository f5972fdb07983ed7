// Entries of `physics` that bear on a state, as places that a diagnostic shows.

import type { ResolvedCondition, World } from '../../model/resolved.js';
import type { Violation } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import { isSo, listed, stateName, valueWords } from './words.js';

/** An entry of `physics`: when it holds, and what a state then is. */
export interface LawFact {
  /** `` `engine` is `off` ``. */
  readonly when: string;
  /** `` `engine` is no longer `off` ``: how it ends; missing where several things must come together. */
  readonly ended?: string;
  /** What the state then is, by id; nothing for unknown and for limits. */
  readonly then: readonly string[];
  readonly at: Span;
}

/** The entries that say what `state` then is. */
export function lawsOf(state: string, physics: World['physics']): readonly LawFact[] {
  return physics.flatMap(({ when, then, at }) => {
    const [first] = when;
    const ended = when.length === 1 && first ? { ended: conditionWords(first, 'is no longer') } : {};
    const held = listed(
      when.map((each) => conditionWords(each, 'is')),
      'and',
    );
    const effects = then.filter((effect) => effect.state === state);
    return effects.map((effect) => ({ when: held, ...ended, then: wordsOf(effect), at }));
  });
}

function wordsOf({ test }: ResolvedCondition): readonly string[] {
  return test.kind === 'words' ? test.words : [];
}

function conditionWords({ state, test }: ResolvedCondition, is: string): string {
  const what = test.kind === 'words' ? valueWords(test.words) : test.kind === 'limits' ? test.text : 'unknown';
  return `${stateName({ state })} ${is} ${what}`;
}

/** Entries that do not leave a state what a step sets it to, or says that it is. */
export function forbiddingLaws({ changed, trace }: Violation, { physics }: World): World['physics'] {
  const last = trace.at(-1);
  const state = changed?.state;
  const named = (changed?.by === 'means' ? last?.means : last?.sets)?.find((each) => each.state === state);
  return physics.filter(({ then }) =>
    then.some((effect) => {
      const words = wordsOf(effect);
      return effect.state === state && !(words.length > 0 && named?.values.every((value) => words.includes(value)));
    }),
  );
}

/** Entries as related places. */
export function lawPlaces(laws: readonly LawFact[], state: string): { message: string; at: Span }[] {
  return laws.map(({ when, then, at }) => {
    const becomes = then.length === 0 ? `${stateName({ state })} is unknown` : isSo([{ state, values: then }]);
    return { message: `\`physics\`: while ${when}, ${becomes}`, at };
  });
}

// Entries of `physics` that bear on a state, as places that a diagnostic shows.

import type { ResolvedCondition } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import type { Context } from '../rule.js';
import { isSo, listed, stateName, valueWords } from './words.js';

/** An entry of `physics`: when it holds, and what a state then is. */
export interface LawFact {
  /** `` `engine` is `off` ``. */
  readonly when: string;
  /** What the state then is, by id; nothing for unknown and for limits. */
  readonly then: readonly string[];
  readonly at: Span;
}

/** All entries that say what `state` then is. */
export function lawsOf(state: string, { resolved }: Context): readonly LawFact[] {
  return resolved.world.physics.flatMap(({ when, then, at }) =>
    then
      .filter((effect) => effect.state === state)
      .map((effect) => ({ when: whenWords(when), then: wordsOf(effect), at })),
  );
}

function wordsOf({ test }: ResolvedCondition): readonly string[] {
  return test.kind === 'words' ? test.words : [];
}

function whenWords(when: readonly ResolvedCondition[]): string {
  return listed(
    when.map(({ state, test }) => {
      if (test.kind === 'limits') return `${stateName({ state })} is ${test.text}`;
      if (test.kind === 'unknown') return `${stateName({ state })} is unknown`;
      return `${stateName({ state })} is ${valueWords(test.words)}`;
    }),
    'and',
  );
}

/** Entries as related places. */
export function lawPlaces(laws: readonly LawFact[], state: string): { message: string; at: Span }[] {
  return laws.map(({ when, then, at }) => {
    const becomes = then.length === 0 ? `${stateName({ state })} is unknown` : isSo([{ state, values: then }]);
    return { message: `\`physics\`: while ${when}, ${becomes}`, at };
  });
}

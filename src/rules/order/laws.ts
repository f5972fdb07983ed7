// Entries of `physics` that bear on a state, as places that a diagnostic shows.

import type { ResolvedCondition } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import type { Context } from '../rule.js';
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

/** All entries that say what `state` then is. */
export function lawsOf(state: string, { resolved }: Context): readonly LawFact[] {
  return resolved.world.physics.flatMap(({ when, then, at }) => {
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

/** Entries as related places. */
export function lawPlaces(laws: readonly LawFact[], state: string): { message: string; at: Span }[] {
  return laws.map(({ when, then, at }) => {
    const becomes = then.length === 0 ? `${stateName({ state })} is unknown` : isSo([{ state, values: then }]);
    return { message: `\`physics\`: while ${when}, ${becomes}`, at };
  });
}

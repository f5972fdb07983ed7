// Short ways to make something to show.

import type { Said } from '../model/comparison.js';
import type { PlainCondition, PlainLimits, PlainState } from '../model/compiled-book.js';
import type { Words } from '../model/text.js';

/** A number, an id, a name: the same in every language. */
export function plain(text: string): Said {
  return { kind: 'plain', text };
}

/** Words of the book. */
export function words(of: Words): Said {
  return { kind: 'words', words: of };
}

/** Words of the interface. */
export function ui(key: string, parts?: Readonly<Record<string, Said>>): Said {
  return parts ? { kind: 'ui', key, parts } : { kind: 'ui', key };
}

/** Several, one after the other; one alone stands for itself. */
export function list(of: readonly Said[]): Said {
  const [only] = of;
  return of.length === 1 && only ? only : { kind: 'list', of };
}

/** Ids, or other names. */
export function names(ids: readonly string[]): Said {
  return list(ids.map(plain));
}

/** `18/5..21/5`: equal for equal limits, however they are written. */
export function endsOf(limits: PlainLimits | undefined): string {
  return limits ? `${limits.exact.low ?? ''}..${limits.exact.high ?? ''}` : '';
}

/** Equal where two conditions ask the same, whatever bundle they come from. */
export function conditionKey({ state, is, limits }: PlainCondition): string {
  return `${state} ${is ? [...is].sort().join('|') : limits ? endsOf(limits) : '?'}`;
}

/** Equal where two lists of conditions ask the same together. */
export function conditionsKey(conditions: readonly PlainCondition[]): string {
  return [...new Set(conditions.map(conditionKey))].sort().join(', ');
}

/** `Engine: off or low idle`. */
export function sayCondition({ state, is, limits }: PlainCondition, states: ReadonlyMap<string, PlainState>): Said {
  const known = states.get(state);
  const value = (id: string): Said => {
    const label = known?.values.find((one) => one.id === id)?.label;
    return label ? words(label) : plain(id);
  };
  const what = is ? ui('either', { of: list(is.map(value)) }) : limits ? plain(limits.shown) : ui('unknown');
  return ui('is', { label: known ? words(known.label) : plain(state), what });
}

/** Several conditions, as a list. */
export function sayConditions(conditions: readonly PlainCondition[], states: ReadonlyMap<string, PlainState>): Said {
  return list(conditions.map((condition) => sayCondition(condition, states)));
}

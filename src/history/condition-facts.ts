// Conditions on states as facts: one for each state, or one for a whole bundle that stands there by its name.

import type { Said, Weight } from '../model/comparison.js';
import type { CompiledBook, PlainCondition, PlainHazard, PlainState } from '../model/compiled-book.js';
import { addOneOf, type FactParts, type Place } from './fact-sheet.js';
import { conditionKey, conditionsKey, plain, sayCondition, sayConditions, ui, words } from './said.js';

/** What the parts of a book are read with. */
export interface BookSense {
  readonly states: ReadonlyMap<string, PlainState>;
  /** States that safety rules, bundles or ends name: whatever touches one has to do with safety. */
  readonly safetyStates: ReadonlySet<string>;
  readonly hazards: ReadonlyMap<string, PlainHazard>;
  readonly titles: ReadonlyMap<string, Said>;
}

/** What a book says of itself, for reading its parts. `safetyStates` are those of both books that are compared. */
export function senseOf(book: CompiledBook, safetyStates: ReadonlySet<string>): BookSense {
  return {
    states: new Map(book.states.map((state) => [state.id, state])),
    safetyStates,
    hazards: new Map(book.hazards.map((hazard) => [hazard.id, hazard])),
    titles: new Map(book.variants.map(({ procedure }) => [procedure.id, words(procedure.title)])),
  };
}

/** The states that safety rules, bundles and ends of a book name. */
export function safetyStatesOf({ rules, conditions, ends }: CompiledBook): readonly string[] {
  const asked = [
    ...rules.flatMap(({ when, must }) => [...when, ...must]),
    ...conditions.flatMap((bundle) => bundle.conditions),
    ...ends.flatMap(({ must }) => must),
  ];
  return [...asked.map(({ state }) => state), ...rules.flatMap(({ unchanged }) => unchanged)];
}

/** How much weighs what touches a state. */
export function weightOf(state: string, { safetyStates }: BookSense): Weight {
  return safetyStates.has(state) ? 'safety' : 'technical';
}

/** One condition. */
export function conditionParts(condition: PlainCondition, sense: BookSense): FactParts {
  const { limits } = condition;
  return {
    weight: weightOf(condition.state, sense),
    equal: conditionKey(condition),
    said: sayCondition(condition, sense.states),
    ...(limits && { spelled: limits.shown, numbers: [limits.shown] }),
  };
}

/** Conditions that hold together: `needs`, `sets`, `must`. */
export function addConditions(
  place: Place,
  about: string,
  { conditions, sense }: { readonly conditions: readonly PlainCondition[]; readonly sense: BookSense },
): void {
  const group = `${place.key}/${about}`;
  place.sheet.groups.set(group, conditionsKey(conditions));
  const bundles = new Map<string, PlainCondition[]>();
  for (const condition of conditions) {
    const { bundle } = condition;
    if (bundle === undefined) addOneOf(place, about, condition.state, { ...conditionParts(condition, sense), group });
    else bundles.set(bundle, [...(bundles.get(bundle) ?? []), condition]);
  }
  for (const [bundle, own] of bundles) {
    addOneOf(place, about, `bundle ${bundle}`, {
      weight: 'safety',
      equal: bundle,
      said: ui('bundle', { name: plain(bundle), conditions: sayConditions(own, sense.states) }),
      group,
    });
  }
}

/** Conditions that are one fact together, where it is their combination that counts. */
export function togetherParts(
  conditions: readonly PlainCondition[],
  sense: BookSense,
  weight: Weight,
): FactParts | undefined {
  const numbers = conditions.flatMap(({ limits }) => limits?.shown ?? []);
  return conditions.length === 0
    ? undefined
    : {
        weight,
        equal: conditionsKey(conditions),
        spelled: conditions.map(({ limits }) => limits?.shown ?? '').join(),
        said: sayConditions(conditions, sense.states),
        numbers,
      };
}

// States of machine, people and surroundings, and what is asked of them.

import type { Located, Span } from '../text/source.js';
import type { NumberChoice } from './numbers.js';
import type { Text } from './text.js';

/** What a state must be: one of some words, or within limits (for a state with a quantity). */
export type StateTest =
  | { readonly kind: 'words'; readonly words: readonly Located<string>[]; readonly at: Span }
  | { readonly kind: 'limits'; readonly limits: NumberChoice; readonly at: Span }
  /** Only in effects: nothing is known of it afterwards. */
  | { readonly kind: 'unknown'; readonly at: Span };

export interface StateCondition {
  readonly state: Located<string>;
  readonly test: StateTest;
}

/** What `needs`, `must`, `means`, `sets` and `leaves` take: a map, or the name of a bundle in `conditions`. */
export type Conditions =
  | { readonly kind: 'bundle'; readonly name: Located<string>; readonly at: Span }
  | { readonly kind: 'map'; readonly conditions: readonly StateCondition[]; readonly at: Span };

/** A declared state variable. `values` is empty for one with a quantity. */
export interface StateVariable {
  readonly id: string;
  readonly label?: Text;
  readonly values: readonly { readonly id: Located<string>; readonly label?: Text }[];
  readonly quantity?: Located<string>;
  readonly start?: Located<string>;
  readonly restore: boolean;
  readonly safe?: Located<string>;
  readonly movesWhen?: Conditions;
  readonly at: Span;
}

/** What follows from what: `when` holds, then `effects` come about. */
export interface Physics {
  readonly when: Conditions;
  readonly then: Conditions;
  readonly at: Span;
}

export type Severity = 'will-kill' | 'may-kill' | 'may-injure' | 'damage';

export interface Hazard {
  readonly id: string;
  readonly severity: Located<Severity>;
  readonly what: Text;
  readonly harm: Text;
  readonly avoid: Text;
  readonly at: Span;
}

/** A rule that nothing may break. Exactly one of `must` and `unchanged` is usual; both may stand. */
export interface SafetyRule {
  readonly id: string;
  readonly label?: Text;
  readonly when?: Conditions;
  readonly must?: Conditions;
  readonly unchanged?: readonly Located<string>[];
  readonly hazard?: Located<string>;
  readonly exceptEnergized: boolean;
  readonly origin?: Text;
  readonly at: Span;
}

/** What happens at an end that is not `done`: a procedure that is run, and what must then hold. */
export interface EndRule {
  readonly run?: Located<string>;
  readonly must?: Conditions;
  readonly at: Span;
}

// What the proof asks of every path: at which point of which step, of which variables, and what a yes would mean.

import type { ResolvedRule } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import type { Violation, ViolationKind } from './result.js';
import type { Literal } from './slices.js';
import type { Variable, Wanted } from './variables.js';

export type Test =
  /** A state is possible in which all literals hold. */
  | { readonly kind: 'exists'; readonly literals: readonly Literal[] }
  /** While settling, a law that names values changed the variable. */
  | { readonly kind: 'forced'; readonly variable: Variable }
  /** While settling, a law changed the variable, and `when` may have held before the act or after it. */
  | { readonly kind: 'disturbed'; readonly variable: Variable; readonly when: readonly Literal[] }
  /** Laws do not come to rest. */
  | { readonly kind: 'conflict'; readonly variable: Variable };

/** The point in a step: on arrival, in its place, after an act, on the way to the next step. */
export type Point =
  | { readonly kind: 'before' }
  | { readonly kind: 'entered' }
  | { readonly kind: 'act'; readonly act: number }
  | { readonly kind: 'edge'; readonly act: number; readonly edge: number };

/** What a violation says beside its path. */
export interface Claim {
  readonly kind: ViolationKind;
  readonly at: Span;
  readonly phase: Violation['phase'];
  /** The fact that is missing where the test is met. */
  readonly wanted?: Pick<Wanted, 'variable' | 'mask'> & {
    readonly texts: readonly string[];
    readonly at: Span;
    readonly bundle?: string;
  };
  readonly rule?: ResolvedRule;
  /** What makes the rule trigger. */
  readonly when?: readonly Literal[];
  readonly changed?: Violation['changed'];
  readonly value?: string;
  readonly input?: string;
  readonly reading?: Violation['reading'];
  readonly callee?: string;
}

/** One question. Questions of equal `id` ask the same at several points: the first yes counts. */
export interface Question {
  readonly id: string;
  /** Questions of one family share a memory: what was reported is not reported again until `clear` cannot hold. */
  readonly family: string;
  readonly clear?: readonly Literal[];
  readonly node: number;
  readonly point: Point;
  readonly test: Test;
  /** Missing for a question that only observes which rules trigger. */
  readonly claim?: Claim;
  readonly triggers?: ResolvedRule;
}

/** The variables that a question depends on. */
export function variablesOf({ test, clear = [] }: Question): readonly Variable[] {
  const asked =
    test.kind === 'exists'
      ? test.literals.map(({ variable }) => variable)
      : test.kind === 'disturbed'
        ? [test.variable, ...test.when.map(({ variable }) => variable)]
        : [test.variable];
  return [...asked, ...clear.map(({ variable }) => variable)];
}

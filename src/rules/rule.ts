// What a rule is: facts found in one subject, and the words for them. A rule reads; it changes nothing and never throws.

import type { Fix, Related, Severity } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { Procedure } from '../model/procedure.js';
import type { ResolvedBook, ResolvedValue, Variant, World } from '../model/resolved.js';
import type { OrderResult } from '../order/result.js';
import type { Span } from '../text/source.js';

/** What every rule may look at besides its subject. */
export interface Context {
  readonly resolved: ResolvedBook;
  readonly book: Book;
  /** `YYYY-MM-DD`; missing where review dates are not to be judged. */
  readonly today?: string;
  /** Whether only some rigs were asked for: what is said of all of them is then not known. */
  readonly isPart?: boolean;
  /** The order proofs by variant id, as far as there are any. */
  readonly proofs?: ReadonlyMap<string, OrderResult>;
  /** Proves a variant as it might be; missing where it is only asked whether anything is wrong. */
  readonly reprove?: (variant: Variant, world: World) => OrderResult;
}

/** A variant with what the order proof found in it. */
export interface Proof {
  readonly variant: Variant;
  readonly result: OrderResult;
}

/** A value of a variant. */
export interface ValueSubject {
  readonly variant: Variant;
  readonly value: ResolvedValue;
}

/** What each kind of rule is shown, one at a time. */
export interface Subjects {
  readonly book: Book;
  readonly procedure: Procedure;
  readonly variant: Variant;
  readonly value: ValueSubject;
  readonly proof: Proof;
  /** All of them at once. */
  readonly proofs: readonly Proof[];
}

/** One fault found: where, other places that have part in it, and the facts that its words are made of. */
export interface Finding<D> {
  readonly at: Span;
  readonly related?: readonly Related[];
  readonly data: D;
}

/** The words for a finding; see `Diagnostic` for what each part is. */
export interface Said {
  readonly message: string;
  readonly help?: string;
  readonly note?: string;
  readonly fixes?: readonly Fix[];
}

export interface Rule<K extends keyof Subjects = keyof Subjects, D = unknown> {
  /** The file's name; names the fault. */
  readonly id: string;
  readonly severity: Severity;
  readonly needs: K;
  readonly run: (subject: Subjects[K], context: Context) => Iterable<Finding<D>>;
  readonly say: (data: D) => Said;
}

/** Any rule, as a list holds it. */
export interface AnyRule {
  readonly id: string;
  readonly severity: Severity;
  readonly needs: keyof Subjects;
  readonly run: (subject: never, context: Context) => Iterable<Finding<unknown>>;
  readonly say: (data: never) => Said;
}

/** Declares a rule; infers what its findings hold. */
export function rule<K extends keyof Subjects, D>(parts: Rule<K, D>): Rule<K, D> {
  return parts;
}

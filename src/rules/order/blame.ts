// Whether one word, other than it is, would leave nothing wrong: then that word is what is wrong, however much shows it.

import type { Fix } from '../../diagnostic/diagnostic.js';
import type { Variant, World } from '../../model/resolved.js';
import { type OrderResult, type Violation, warningKinds } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Proof } from '../rule.js';
import { entryText } from './help.js';

/** Proves a variant once more, as it might be, in a world as it might be. */
export type Reprove = (variant: Variant, world: World) => OrderResult;

/** The faults of a proof, without what is only likely to be a slip. */
export function errorsOf({ result }: Proof): readonly Violation[] {
  return result.violations.filter(({ kind }) => !warningKinds.has(kind));
}

/** By the id of their procedure, the variants whose order is not as it should be; none where a proof met its bound. */
export function brokenIn(proofs: readonly Proof[]): ReadonlyMap<string, readonly Proof[]> {
  const broken = new Map<string, Proof[]>();
  for (const proof of proofs) {
    if (!proof.result.complete || errorsOf(proof).length === 0) continue;
    const { id } = proof.variant.procedure;
    broken.set(id, [...(broken.get(id) ?? []), proof]);
  }
  return broken;
}

/** Whether nothing would be wrong with a variant. */
export function isRight(variant: Variant, world: World, reprove: Reprove): boolean {
  const { violations, complete } = reprove(variant, world);
  return complete && violations.every(({ kind }) => warningKinds.has(kind));
}

/** The change of one word to the one that was tried. What was meant is for the author to say. */
export function wordFix(at: Span, word: string): Fix {
  return { title: `Write \`${word}\``, edits: [{ at, text: entryText(word) }], safe: false };
}

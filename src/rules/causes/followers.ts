// A fault with those that follow from it, and the rigs that it is of.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';

/** The rigs of a fault by their labels: its own, or all that its procedure is for. */
export type RigsOf = (diagnostic: Diagnostic) => ReadonlySet<string>;

/** A diagnostic with those that follow from it as related places. */
export function withFollowers(diagnostic: Diagnostic, followers: readonly Diagnostic[]): Diagnostic {
  if (followers.length === 0) return diagnostic;
  const related = followers.map(({ message, at }) => ({ message, at }));
  return { ...diagnostic, related: [...diagnostic.related, ...related] };
}

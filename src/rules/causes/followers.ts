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

/** Joins each diagnostic to the one that it follows from. What follows from one that follows itself goes to the first of all. */
export function joinTo(
  diagnostics: readonly Diagnostic[],
  causeOf: (diagnostic: Diagnostic) => Diagnostic | undefined,
): readonly Diagnostic[] {
  const causes = new Map<Diagnostic, Diagnostic>();
  for (const diagnostic of diagnostics) {
    const cause = diagnostic.severity === 'hint' ? undefined : causeOf(diagnostic);
    if (cause && cause !== diagnostic) causes.set(diagnostic, cause);
  }
  const followers = new Map<Diagnostic, Diagnostic[]>();
  for (const diagnostic of causes.keys()) {
    let first = diagnostic;
    for (let cause = causes.get(first); cause; cause = causes.get(first)) {
      first = cause;
      if (first === diagnostic) break;
    }
    followers.set(first, [...(followers.get(first) ?? []), diagnostic]);
  }
  return diagnostics.filter((one) => !causes.has(one)).map((one) => withFollowers(one, followers.get(one) ?? []));
}

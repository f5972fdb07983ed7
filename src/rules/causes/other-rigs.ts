// Steps that stand for one another, each for rigs of its own, lack in the same way what all rigs lack: that is one fault.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { RigsOf } from './followers.js';
import { joinTo } from './followers.js';

/** Faults of order whose message ends with what is missing. */
const missing: ReadonlySet<string> = new Set([
  'cannot-move-here',
  'end-state-not-met',
  'instrument-needs-not-met',
  'need-not-met',
  'not-restored',
  'requires-not-met-at-run',
  'safety-rule-broken',
  'unsafe-end',
]);

/** Joins what one procedure misses for some rigs to the first place where it misses the same for others. */
export function joinOtherRigs(diagnostics: readonly Diagnostic[], rigsOf: RigsOf): readonly Diagnostic[] {
  const told = diagnostics.filter(({ code, severity }) => severity === 'error' && missing.has(code));
  return joinTo(diagnostics, (diagnostic) => {
    if (!told.includes(diagnostic)) return undefined;
    const rigs = rigsOf(diagnostic);
    const first = told.find(
      (one) =>
        one.at.file === diagnostic.at.file &&
        one.at.start !== diagnostic.at.start &&
        factsOf(one) === factsOf(diagnostic) &&
        [...rigsOf(one)].every((rig) => !rigs.has(rig)),
    );
    return first && first.at.start < diagnostic.at.start ? first : undefined;
  });
}

function factsOf({ message }: Diagnostic): string {
  return message.slice(message.lastIndexOf(': '));
}

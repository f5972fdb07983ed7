// One side written out where every side was meant: the order of the steps and the readings go wrong on the other side. That is
// one fault, and is told where the side stands.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Procedure } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { joinTo } from './followers.js';

/** What is said of steps and readings of a side that another side's name has taken the place of. */
const followers: ReadonlySet<string> = new Set([
  'adjust-without-reading',
  'derived-from-stale',
  'failed-value-at-done',
  'failing-reading-without-branch',
  'loop-without-bound',
  'never-done',
  'sent-to-wrong-adjuster',
  'stale-value-at-done',
  'unreachable-step',
  'unused-adjuster',
  'unused-value',
  'watch-not-moved',
]);

/** Joins what goes wrong with what is repeated for each side to the side that is written out there; of two, to the first. */
export function joinWrittenOut(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const causes = diagnostics.filter(({ code }) => code === 'side-written-out');
  if (causes.length === 0) return diagnostics;
  const causeOf = (diagnostic: Diagnostic): Diagnostic | undefined => {
    if (!followers.has(diagnostic.code)) return undefined;
    const cause = causes.find(({ at }) => at.file === diagnostic.at.file);
    const procedure = [...book.procedures.values()].find(({ file }) => file === diagnostic.at.file);
    return procedure && isRepeated(procedure, diagnostic.at) ? cause : undefined;
  };
  return joinTo(diagnostics, causeOf);
}

/** Whether a place lies in a step, value or adjuster that is written once for each side. */
function isRepeated({ steps, values, adjusters }: Procedure, place: Span): boolean {
  const isHere = ({ start, end }: Span): boolean => start <= place.start && place.end <= end;
  const declared = [...values, ...adjusters].filter(({ at, idAt }) => isHere(at) || isHere(idAt));
  const isTwice = declared.some((one) =>
    declared.some(({ id, idAt }) => id !== one.id && idAt.start === one.idAt.start),
  );
  return isTwice || steps.some(({ repeated, at }) => repeated !== undefined && isHere(at));
}

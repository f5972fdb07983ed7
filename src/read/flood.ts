// Keeps one file from burying all others: of faults of one kind only the first are shown, with the number of the rest.

import type { Diagnostic } from '../diagnostic/diagnostic.js';

/** Faults of one code in one file that are still worth reading one by one. */
const mostAlike = 20;

/** The diagnostics of one file with at most 20 of each code; the last one kept says how many more there are. */
export function withoutFlood(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  if (diagnostics.length <= mostAlike) return diagnostics;
  const counts = new Map<string, number>();
  for (const { code } of diagnostics) counts.set(code, (counts.get(code) ?? 0) + 1);
  const shown = new Map<string, number>();
  return diagnostics.flatMap((diagnostic) => {
    const { code, note } = diagnostic;
    const number = (shown.get(code) ?? 0) + 1;
    shown.set(code, number);
    const more = (counts.get(code) ?? 0) - mostAlike;
    if (number > mostAlike) return [];
    if (number < mostAlike || more <= 0) return [diagnostic];
    const rest = `${more} more of this kind follow in this file and are not shown.`;
    return [{ ...diagnostic, note: note ? `${note} ${rest}` : rest }];
  });
}

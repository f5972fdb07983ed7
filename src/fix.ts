// A book with all that can be mended without asking mended: fixes are made, and the book is checked again, till none is left.

import type { Checked, CheckInput } from './compile.js';
import { type Applied, applySafeFixes } from './diagnostic/apply-fixes.js';
import type { SourceFile } from './text/source.js';

/** Rounds at most: a fix may show the next fault, and two fixes that undo each other must come to an end. */
const mostRounds = 12;

export interface FixedBook {
  readonly sources: ReadonlyMap<string, SourceFile>;
  /** All fixes in the order in which they were made, with the texts that their places stand in. */
  readonly applied: readonly (Applied & { readonly within: ReadonlyMap<string, SourceFile> })[];
}

/** Makes every safe fix, of the diagnostics with the code `only` where one is given. Writes nothing. */
export function fixBook(input: CheckInput, check: (input: CheckInput) => Checked, only?: string): FixedBook {
  const applied: FixedBook['applied'][number][] = [];
  let { sources } = input;
  for (let round = 0; round < mostRounds; round += 1) {
    const { diagnostics } = check({ ...input, sources });
    const wanted = diagnostics.filter(({ code }) => only === undefined || code === only);
    const fixed = applySafeFixes(sources, wanted);
    if (fixed.applied.length === 0) break;
    const within = sources;
    applied.push(...fixed.applied.map((one) => ({ ...one, within })));
    sources = fixed.sources;
  }
  return { sources, applied };
}

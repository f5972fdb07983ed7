// The pipeline on one screen: read, resolve, prove the order, judge by rules. Files in as a map, diagnostics out.
// Pure: reads no clock, no disk.

import { byPlace, type Diagnostic } from './diagnostic/diagnostic.js';
import { cardFaults } from './emit/cards/cards.js';
import type { CardFonts } from './emit/cards/fonts.js';
import type { Book } from './model/book.js';
import type { ResolvedBook } from './model/resolved.js';
import { proveVariant } from './order/prove.js';
import type { OrderResult } from './order/result.js';
import { readBook } from './read/book.js';
import { resolveBook } from './resolve/resolve.js';
import { rules } from './rules/index.js';
import { runRules } from './rules/run.js';
import { sortOutWaived } from './rules/waivers.js';
import type { SourceFile } from './text/source.js';

/** States that the order proof of one variant may visit before it says *not proved*. */
const proofBudget = 200_000;

export interface CheckInput {
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly figures: ReadonlySet<string>;
  /** `YYYY-MM-DD`, for review dates. */
  readonly today?: string;
  /** The faces that cards are set in. Without them it is not checked whether cards fit. */
  readonly fonts?: CardFonts;
  /** Only these rigs: `tarn-40+row-12x20`. */
  readonly rig?: string;
}

export interface Checked {
  readonly diagnostics: readonly Diagnostic[];
  /** Warnings that a waiver covers. */
  readonly waived: readonly Diagnostic[];
  readonly book?: Book;
  readonly resolved?: ResolvedBook;
  /** By variant id. */
  readonly proofs: ReadonlyMap<string, OrderResult>;
}

/** Everything short of writing. */
export function checkBook(input: CheckInput): Checked {
  const read = readBook(input.sources, input.figures);
  const proofs = new Map<string, OrderResult>();
  if (!read.value) return { diagnostics: sorted(read.diagnostics), waived: [], proofs };
  const book = read.value;
  const resolution = resolveBook(book, input.rig === undefined ? {} : { rig: input.rig });
  const resolved = resolution.value;
  for (const variant of resolved.variants) {
    proofs.set(variant.id, proveVariant(variant, resolved.world, { budget: proofBudget }));
  }
  const context = { resolved, book, ...(input.today === undefined ? {} : { today: input.today }) };
  const judged = runRules(rules, context, proofs);
  const found = [...read.diagnostics, ...resolution.diagnostics, ...judged];
  // Whether a card fits is asked of what is right: a wrong procedure is mended first.
  const cards = input.fonts && holds(found, false) ? cardFaults(resolved, { proofs, fonts: input.fonts }) : [];
  const { kept, waived } = sortOutWaived([...found, ...cards], book);
  return { diagnostics: sorted(kept), waived: sorted(waived), book, resolved, proofs };
}

function sorted(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  return [...diagnostics].sort(byPlace);
}

/** Whether a book may be built: errors never, warnings unless `strict`. Hints do not count. */
export function holds(diagnostics: readonly Diagnostic[], strict: boolean): boolean {
  return diagnostics.every(
    (diagnostic) => diagnostic.severity === 'hint' || (diagnostic.severity === 'warning' && !strict),
  );
}

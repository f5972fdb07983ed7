// The pipeline on one screen: read, resolve, prove the order, judge by rules. Files in as a map, diagnostics out.
// Pure: reads no clock, no disk.

import { collectDiagnostics, withoutFollowUps } from './diagnostic/collect.js';
import type { Diagnostic } from './diagnostic/diagnostic.js';
import { cardFaults } from './emit/cards/cards.js';
import type { CardFonts } from './emit/cards/fonts.js';
import type { Book } from './model/book.js';
import type { ResolvedBook } from './model/resolved.js';
import { makeProver } from './order/prove.js';
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
  /** Files that are there and could not be read as text; they were reported when they were opened. */
  readonly unreadable?: ReadonlySet<string>;
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
  const read = readBook(input.sources, input.figures, input.unreadable);
  const proofs = new Map<string, OrderResult>();
  if (!read.value) return { diagnostics: collectDiagnostics(read.diagnostics), waived: [], proofs };
  const book = read.value;
  const resolution = resolveBook(book, input.rig === undefined ? {} : { rig: input.rig });
  const resolved = resolution.value;
  const before = withoutGuessedLanguages([
    ...read.diagnostics,
    ...withoutFollowUps(read.diagnostics, resolution.diagnostics),
  ]);
  const provable = provableProcedures(book, before);
  const prove = makeProver(resolved.world, { budget: proofBudget });
  for (const variant of resolved.variants) {
    if (provable.has(variant.procedure.id)) proofs.set(variant.id, prove(variant));
  }
  const context = { resolved, book, ...(input.today === undefined ? {} : { today: input.today }) };
  const judged = withoutFollowUps(before, runRules(rules, context, proofs));
  const found = [...before, ...judged];
  // Whether a card fits is asked of what is right: a wrong procedure is mended first.
  const cards = input.fonts && holds(found, false) ? cardFaults(resolved, { proofs, fonts: input.fonts }) : [];
  const { kept, waived } = sortOutWaived([...found, ...cards], book);
  return { diagnostics: collectDiagnostics(kept), waived: collectDiagnostics(waived), book, resolved, proofs };
}

/** Where book.yaml itself is wrong, its languages may be guessed: nothing is said of the languages of other files. */
function withoutGuessedLanguages(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const isWrong = diagnostics.some(
    ({ at, severity, code }) => at.file === 'book.yaml' && severity === 'error' && code !== 'unknown-language',
  );
  return isWrong ? diagnostics.filter(({ code }) => code !== 'unknown-language') : diagnostics;
}

/** Files without which the order of no procedure can be proved: states, safety rules, and what values are made of. */
const provingFiles = /^(?:states|safety|instruments)\.yaml$|^(?:machines|headers)\//;

/**
 * Procedures whose order can be proved: nothing in their own file, in those of the procedures that they run, or in the
 * files of states and safety rules is wrong already. Of the others nothing is said that may only follow from that.
 */
function provableProcedures(book: Book, diagnostics: readonly Diagnostic[]): ReadonlySet<string> {
  const wrong = new Set(diagnostics.flatMap(({ severity, at }) => (severity === 'error' ? [at.file] : [])));
  for (const file of book.unread) wrong.add(file);
  if ([...wrong].some((file) => provingFiles.test(file))) return new Set();
  const ends = [...book.ends.values()].flatMap(({ run }) => run?.value ?? []);
  const runs = (id: string, seen: Set<string>): Set<string> => {
    const procedure = book.procedures.get(id);
    if (seen.has(id)) return seen;
    seen.add(id);
    for (const { run } of procedure?.steps ?? []) if (run) runs(run.value, seen);
    return seen;
  };
  const isRight = (id: string): boolean => {
    const procedure = book.procedures.get(id);
    return procedure !== undefined && !wrong.has(procedure.file);
  };
  const all = [...book.procedures.keys()];
  return new Set(all.filter((id) => [id, ...ends].flatMap((one) => [...runs(one, new Set())]).every(isRight)));
}

/** Whether a book may be built: errors never, warnings unless `strict`. Hints do not count. */
export function holds(diagnostics: readonly Diagnostic[], strict: boolean): boolean {
  return diagnostics.every(
    (diagnostic) => diagnostic.severity === 'hint' || (diagnostic.severity === 'warning' && !strict),
  );
}

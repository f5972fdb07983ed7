// The pipeline on one screen: read, resolve, prove the order, judge by rules. Files in as a map, diagnostics out.
// Pure: reads no clock, no disk.

import { collectDiagnostics, withoutFollowUps } from './diagnostic/collect.js';
import type { Diagnostic } from './diagnostic/diagnostic.js';
import { cardFaults } from './emit/cards/card-faults.js';
import type { Measures } from './emit/cards/text.js';
import type { Book } from './model/book.js';
import type { ResolvedBook, Variant, World } from './model/resolved.js';
import { makeProver, proveVariant } from './order/prove.js';
import type { OrderResult } from './order/result.js';
import { runnableFor } from './order/runnable.js';
import { readBook } from './read/book.js';
import { resolveBook } from './resolve/resolve.js';
import { joinCauses } from './rules/causes/causes.js';
import { rules } from './rules/index.js';
import { type RuleMemory, runRules } from './rules/run.js';
import { sortOutWaived } from './rules/waivers.js';
import { type Keep, keepResults } from './text/keep.js';
import type { SourceFile } from './text/source.js';

/** States that the order proof of one variant may visit before it says *not proved*. */
export const proofBudget = 200_000;

export interface CheckInput {
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly figures: ReadonlySet<string>;
  /** Files that are there and could not be read as text; they were reported when they were opened. */
  readonly unreadable?: ReadonlySet<string>;
  /** `YYYY-MM-DD`, for review dates. */
  readonly today?: string;
  /** The faces that cards are set in. Without them it is not checked whether cards fit. */
  readonly fonts?: Measures;
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
  return makeChecker()(input);
}

/** Rounds in which a checker keeps what nothing asked for: those who try changes go back to what was there before. */
const keptRounds = 8;

/**
 * A checker for a book that is checked again and again while it changes. What comes of parts that are the same as before is
 * not worked out again: files by their text, procedures with all that they use, proofs and what the rules found. What it
 * says is what `checkBook` says of the same input.
 */
export function makeChecker(): (input: CheckInput) => Checked {
  const kept = keepResults(keptRounds);
  const memory: RuleMemory = new Map();
  return (input) => {
    kept.turn();
    return check(input, kept.keep, memory);
  };
}

function check(input: CheckInput, keep: Keep, memory: RuleMemory): Checked {
  const { unreadable = new Set(), rig } = input;
  const read = readBook(input.sources, input.figures, { unreadable, keep });
  if (!read.value) return { diagnostics: collectDiagnostics(read.diagnostics), waived: [], proofs: new Map() };
  const book = read.value;
  const resolution = resolveBook(book, { keep, ...(rig === undefined ? {} : { rig }) });
  const resolved = resolution.value;
  const before = withoutGuessedLanguages([
    ...read.diagnostics,
    ...withoutFollowUps(read.diagnostics, resolution.diagnostics),
  ]);
  const provable = provableProcedures(book, before);
  const procedures = (variant: Variant) => runnableFor(variant, resolved.variants);
  const prove = makeProver(resolved.world, { budget: proofBudget, procedures, keep });
  const proved = resolved.variants
    .filter(({ procedure }) => provable.has(procedure.id))
    .map((variant) => [variant.id, prove(variant)] as const);
  const proofs = keep('all proofs', proved.flat(), () => new Map<string, OrderResult>(proved));
  const isPart = rig !== undefined;
  const context = {
    resolved,
    book,
    proofs,
    isPart,
    reprove,
    ...(input.today === undefined ? {} : { today: input.today }),
  };
  const judged = withoutFollowUps(before, runRules(rules, context, { keep, memory }));
  const found = [...before, ...judged];
  // Whether a card fits is asked of what is right: a wrong procedure is mended first.
  const cards = input.fonts && holds(found, false) ? cardFaults(resolved, { proofs, fonts: input.fonts }, keep) : [];
  const { kept, waived } = sortOutWaived([...found, ...cards], book);
  const told = joinCauses(collectDiagnostics(kept), resolved);
  return { diagnostics: told, waived: collectDiagnostics(waived), book, resolved, proofs };
}

/** Proves once more, without a look for repairs: for those who ask what another word would come to. */
function reprove(variant: Variant, world: World): OrderResult {
  return proveVariant(variant, world, { budget: proofBudget, repairs: false });
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

// A checked book with all that it takes to check it again after a small change: what was read of each file, what each
// procedure was worked out from, the proofs by what they see, and what the rules found.

import { type CheckInput, checkBook, proofBudget } from '../compile.js';
import type { Diagnostic } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { ResolvedBook, Variant, World } from '../model/resolved.js';
import { proveVariant } from '../order/prove.js';
import type { OrderResult } from '../order/result.js';
import { signatureOf } from '../order/signature.js';
import { readBook } from '../read/book.js';
import { anyRig } from '../resolve/facets.js';
import type { FaultRun } from '../resolve/faults.js';
import { checkNamesOf } from '../resolve/names/check.js';
import { type Base, freshScene, resolveRigs, worldOf } from '../resolve/resolve.js';
import { type Vocabulary, vocabularyOf } from '../resolve/vocabulary.js';
import { rules } from '../rules/index.js';
import { type RuleMemory, runRules } from '../rules/run.js';
import { type Keep, keepSealable } from '../text/keep.js';
import { watchBook } from './watched.js';

/** What one procedure came to, and what of the book it was worked out from: see `watchBook`. */
export interface KeptProcedure {
  readonly variants: readonly Variant[];
  readonly reads: ReadonlySet<string>;
}

export interface Kept {
  readonly input: CheckInput;
  readonly book: Book;
  readonly vocabulary: Vocabulary;
  readonly resolved: ResolvedBook;
  readonly procedures: ReadonlyMap<string, KeptProcedure>;
  /** By variant id. */
  readonly proofs: ReadonlyMap<string, OrderResult>;
  /** By what the proof sees of a variant, in the world as it is. */
  readonly known: ReadonlyMap<string, OrderResult>;
  /** What was read and shown; nothing is added to it any more. */
  readonly keep: Keep;
  readonly memory: RuleMemory;
  /** Everything that was found, waived or not. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Checks a book and keeps all of it. `kept` is missing where the book has errors, of which the diagnostics then tell. */
export function keepBook(input: CheckInput): {
  readonly kept?: Kept;
  readonly diagnostics: readonly Diagnostic[];
} {
  const { fonts: _, rig: __, ...rest } = input;
  const checked = checkBook(rest);
  const { diagnostics, waived } = checked;
  if (diagnostics.some(({ severity }) => severity === 'error')) return { diagnostics };
  const { keep, seal } = keepSealable();
  const book = readBook(input.sources, input.figures, { ...unreadableOf(input), keep }).value;
  if (!book) throw new Error('A book that holds could not be read again');
  const vocabulary = vocabularyOf(book);
  checkNamesOf(book, vocabulary, keep);
  const { world } = worldOf(freshScene(book, vocabulary));
  const ids = [...book.procedures.keys()].sort();
  const procedures = new Map(
    ids.map((id): readonly [string, KeptProcedure] => {
      const { variants, reads } = resolveAgain({ book, vocabulary, world }, id);
      return [id, { variants, reads }];
    }),
  );
  const variants = [...procedures.values()].flatMap((one) => one.variants);
  const resolved: ResolvedBook = { book, world, variants, rigs: checked.resolved?.rigs ?? [] };
  const known = new Map<string, OrderResult>();
  const proofs = new Map(variants.map((variant) => [variant.id, proveOnce(variant, world, known)]));
  const memory: RuleMemory = new Map();
  runRules(rules, { resolved, book, proofs, ...todayOf(input) }, { keep, memory });
  seal();
  const all = [...diagnostics, ...waived];
  return {
    kept: { input, book, vocabulary, resolved, procedures, proofs, known, keep, memory, diagnostics: all },
    diagnostics,
  };
}

/** The option of the same name, where it is given. */
export function unreadableOf({ unreadable }: CheckInput): Pick<CheckInput, 'unreadable'> {
  return unreadable === undefined ? {} : { unreadable };
}

/** The option of the same name, where it is given. */
export function todayOf({ today }: CheckInput): Pick<CheckInput, 'today'> {
  return today === undefined ? {} : { today };
}

/** What a procedure is worked out in. */
export type Ground = Pick<Base, 'book' | 'vocabulary' | 'world'>;

/** Works out one procedure by itself, and hears what of the book it reads. */
export function resolveAgain(
  { book, vocabulary, world }: Ground,
  id: string,
): KeptProcedure & { readonly runs: readonly FaultRun[] } {
  const procedure = book.procedures.get(id);
  if (!procedure) return { variants: [], reads: new Set(), runs: [] };
  const reads = new Set<string>();
  const scene = freshScene(
    watchBook(book, (name) => reads.add(name)),
    vocabulary,
  );
  const base: Base = { ...scene, world, digests: new WeakMap() };
  const { variants, runs } = resolveRigs(base, procedure, { start: anyRig(book), isWhole: book.unread.size === 0 });
  return { variants, reads, runs };
}

/** The proof of a variant, found again where another one that looks the same to it was proved. */
export function proveOnce(variant: Variant, world: World, known: Map<string, OrderResult>): OrderResult {
  const signature = signatureOf(variant);
  const result = known.get(signature) ?? proveVariant(variant, world, { budget: proofBudget, repairs: false });
  known.set(signature, result);
  return result;
}

// A checked book with all that it takes to check it again after a small change: what was read of each file, what each
// procedure was worked out from, the proofs by what they see, and what the rules found.

import { type CheckInput, checkBook, proofBudget } from '../compile.js';
import type { Diagnostic } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { Procedure } from '../model/procedure.js';
import type { ResolvedBook, Variant, World } from '../model/resolved.js';
import { proveVariant } from '../order/prove.js';
import type { OrderResult } from '../order/result.js';
import { signatureOf } from '../order/signature.js';
import { readBook } from '../read/book.js';
import { anyRig } from '../resolve/facets.js';
import type { FaultRun } from '../resolve/faults.js';
import { checkNamesOf } from '../resolve/names/check.js';
import { type Base, freshScene, resolveRigs, worldOf } from '../resolve/resolve.js';
import { type SharedNumber, sharedNumbers } from '../resolve/shared-numbers.js';
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

/** What one number of a shared file came to, and what of the book it was worked out from. */
export interface KeptNumber {
  readonly run: FaultRun;
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
  /** What was worked out of the procedures and the shared files, for changes that leave the shared files as they are. */
  readonly ground: Pick<Base, 'memory' | 'digests'>;
  /** By its key, what each number of the shared files came to. */
  readonly numbers: ReadonlyMap<string, KeptNumber>;
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
  const sorted = [...book.procedures].sort(([a], [b]) => (a < b ? -1 : 1));
  const procedures = new Map(
    sorted.map(([id, procedure]) => [id, resolveWatched({ book, vocabulary, world }, procedure)] as const),
  );
  const ground = baseOf({ book, vocabulary, world });
  for (const procedure of book.procedures.values()) resolveIn(ground, procedure);
  const numbers = new Map(
    sharedNumbers(book).map((number) => [number.key, exploreWatched({ book, vocabulary, world }, number)] as const),
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
    kept: {
      input,
      book,
      vocabulary,
      resolved,
      procedures,
      ground,
      numbers,
      proofs,
      known,
      keep,
      memory,
      diagnostics: all,
    },
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

/** What procedures are worked out in, with nothing or with `known` worked out before. */
export function baseOf({ book, vocabulary, world }: Ground, known?: Pick<Base, 'memory' | 'digests'>): Base {
  return { ...freshScene(book, vocabulary), world, ...(known ?? { digests: new WeakMap() }) };
}

/** Works out one procedure for all rigs. */
export function resolveIn(base: Base, procedure: Procedure): ReturnType<typeof resolveRigs> {
  return resolveRigs(base, procedure, { start: anyRig(base.book), isWhole: base.book.unread.size === 0 });
}

/** Works out one procedure by itself, and hears what of the book it reads. */
function resolveWatched(ground: Ground, procedure: Procedure): KeptProcedure {
  const reads = new Set<string>();
  const { variants } = resolveIn(
    baseOf({ ...ground, book: watchBook(ground.book, (name) => reads.add(name)) }),
    procedure,
  );
  return { variants, reads };
}

/** Looks at one number of the shared files by itself, and hears what of the book it reads. */
function exploreWatched({ book, vocabulary, world }: Ground, { explore }: SharedNumber): KeptNumber {
  const reads = new Set<string>();
  const watched = watchBook(book, (name) => reads.add(name));
  return { run: explore({ ...freshScene(watched, vocabulary), world }), reads };
}

/** The proof of a variant, found again where another one that looks the same to it was proved. */
export function proveOnce(variant: Variant, world: World, known: Map<string, OrderResult>): OrderResult {
  const signature = signatureOf(variant);
  const result = known.get(signature) ?? proveVariant(variant, world, { budget: proofBudget, repairs: false });
  known.set(signature, result);
  return result;
}

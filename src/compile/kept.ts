// A checked book with all that it takes to check it again after a small change: what was read of each file, what each
// procedure was worked out from, the proofs by what they see, and what each rule looked at.

import { type CheckInput, checkBook, proofBudget } from '../compile.js';
import type { Diagnostic } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { ResolvedBook, Variant, World } from '../model/resolved.js';
import { proveVariant } from '../order/prove.js';
import type { OrderResult } from '../order/result.js';
import { signatureOf } from '../order/signature.js';
import { readBook } from '../read/book.js';
import type { Recall } from '../read/build/recall.js';
import { anyRig } from '../resolve/facets.js';
import type { FaultRun } from '../resolve/faults.js';
import { type Base, baseOf, resolveRigs, worldOf } from '../resolve/resolve.js';
import { variantsOf } from '../resolve/variants.js';
import { type Vocabulary, vocabularyOf } from '../resolve/vocabulary.js';
import { rules } from '../rules/index.js';
import type { Context } from '../rules/rule.js';
import { subjectsOf } from '../rules/run.js';
import type { SourceFile } from '../text/source.js';
import { watchBook, watchContext } from './watched.js';

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
  /** By rule, the parts of its context that it looked at. */
  readonly looks: ReadonlyMap<string, ReadonlySet<string>>;
  readonly recall: Recall;
  /** Everything that was found, waived or not. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Checks a book and keeps all of it. Undefined where it has errors, of which the diagnostics then tell. */
export function keepBook(input: CheckInput): {
  readonly kept?: Kept;
  readonly diagnostics: readonly Diagnostic[];
} {
  const { fonts: _, rig: __, ...rest } = input;
  const checked = checkBook(rest);
  const { diagnostics, waived } = checked;
  if (diagnostics.some(({ severity }) => severity === 'error')) return { diagnostics };
  const recall = rememberFiles(input.sources);
  const book = readBook(input.sources, input.figures, input.unreadable, recall).value;
  if (!book) throw new Error('A book that holds could not be read again');
  const vocabulary = vocabularyOf(book);
  const { world } = worldOf(book, vocabulary);
  const procedures = new Map<string, KeptProcedure>();
  for (const id of [...book.procedures.keys()].sort()) {
    const { variants, reads } = resolveAgain({ book, vocabulary, world }, id);
    procedures.set(id, { variants, reads });
  }
  const variants = [...procedures.values()].flatMap((one) => one.variants);
  const resolved: ResolvedBook = { book, world, variants, rigs: checked.resolved?.rigs ?? [] };
  const known = new Map<string, OrderResult>();
  const proofs = new Map(variants.map((variant) => [variant.id, proveOnce(variant, world, known)]));
  const context: Context = { resolved, book, ...(input.today === undefined ? {} : { today: input.today }) };
  const looks = looksOf(context, proofs);
  const all = [...diagnostics, ...waived];
  return {
    kept: { input, book, vocabulary, resolved, procedures, proofs, known, looks, recall, diagnostics: all },
    diagnostics,
  };
}

/** Recalls what was read of these very files; of others nothing is remembered. */
function rememberFiles(sources: ReadonlyMap<string, SourceFile>): Recall {
  const own = new Set(sources.values());
  const memory = new WeakMap<SourceFile, { readonly context: readonly unknown[]; readonly made: object }[]>();
  return <T extends object>(file: SourceFile, context: readonly unknown[], make: () => T): T => {
    if (!own.has(file)) return make();
    const entries = memory.get(file) ?? [];
    memory.set(file, entries);
    const entry = entries.find(
      (one) => one.context.length === context.length && one.context.every((part, i) => part === context[i]),
    );
    if (entry) return entry.made as T;
    const made = make();
    entries.push({ context, made });
    return made;
  };
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
  const watched = watchBook(book, (name) => reads.add(name));
  const start = anyRig(book);
  const found = resolveRigs(baseOf(watched, vocabulary, world), procedure, { start, isWhole: book.unread.size === 0 });
  return { variants: variantsOf(book, found.readings, new WeakMap()), reads, runs: found.runs };
}

/** The proof of a variant, found again where another one that looks the same to it was proved. */
export function proveOnce(variant: Variant, world: World, known: Map<string, OrderResult>): OrderResult {
  const signature = signatureOf(variant);
  const result = known.get(signature) ?? proveVariant(variant, world, { budget: proofBudget, repairs: false });
  known.set(signature, result);
  return result;
}

function looksOf(context: Context, proofs: ReadonlyMap<string, OrderResult>): ReadonlyMap<string, ReadonlySet<string>> {
  return new Map(
    rules.map((rule) => {
      const parts = new Set<string>();
      const watched = watchContext({ ...context, proofs }, (name) => parts.add(name));
      for (const { subject } of subjectsOf(rule.needs, context, { proofs, shows: () => true })) {
        for (const _ of rule.run(subject as never, watched));
      }
      return [rule.id, parts];
    }),
  );
}

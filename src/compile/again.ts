// Checks a kept book again after an edit, as far as the edit reaches, in stages: whoever only asks whether anything is
// noticed stops at the first stage that says so. What it finds is what a full check finds. Pure.
//
//   file ─read─▶ names, states ─▶ procedures that read what changed ─▶ rules ─▶ their proofs, one by one ─▶ the whole book

import { byPlace, type Diagnostic } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { Variant, World } from '../model/resolved.js';
import type { OrderResult } from '../order/result.js';
import { readBook } from '../read/book.js';
import type { Recall } from '../read/build/recall.js';
import { gatherFaults } from '../resolve/faults.js';
import { checkNamesAgain, checkNamesOf } from '../resolve/names/check.js';
import { baseOf, withoutRigs, worldOf } from '../resolve/resolve.js';
import { checkSharedNumbers } from '../resolve/shared-numbers.js';
import { vocabularyOf } from '../resolve/vocabulary.js';
import { rules } from '../rules/index.js';
import type { AnyRule, Context } from '../rules/rule.js';
import { runRules, type Shows } from '../rules/run.js';
import type { Edited } from '../text/edited.js';
import { moveBack } from '../text/moved.js';
import { type Changes, changesOf } from './changes.js';
import { type Ground, type Kept, type KeptProcedure, proveOnce, resolveAgain } from './kept.js';
import { same } from './same.js';

/** What one stage found. Places are those of the book before the edit. */
export interface Stage {
  readonly name: 'read' | 'named' | 'resolved' | 'judged' | 'proved' | 'whole';
  readonly diagnostics: readonly Diagnostic[];
  /** From `resolved` on: whether every page, state, rule and number of the book says what it said before. */
  readonly sameMeaning?: boolean;
  /** From `resolved` on: the variants of the procedures that were worked out again. */
  readonly variants?: readonly Variant[];
}

/** The stages of checking a kept book with `edited` in the place of one of its files. Ends after one with a new error. */
export function* checkAgain(kept: Kept, edited: Edited): Generator<Stage, void> {
  const known = new Set(kept.diagnostics.filter(({ severity }) => severity === 'error').map(placeKey));
  for (const stage of stagesOf(kept, edited)) {
    yield stage;
    if (stage.diagnostics.some((one) => one.severity === 'error' && !known.has(placeKey(one)))) return;
  }
}

/** The code and the place of a diagnostic: what tells one from another. */
export function placeKey({ code, at }: Pick<Diagnostic, 'code' | 'at'>): string {
  return `${code} ${at.file} ${at.start} ${at.end}`;
}

function* stagesOf(kept: Kept, edited: Edited): Generator<Stage, void> {
  const { path } = edited.file;
  const sources = new Map(kept.input.sources).set(path, edited.file);
  const read = readBook(sources, kept.input.figures, kept.input.unreadable, recallBut(kept.recall, edited));
  yield { name: 'read', diagnostics: read.diagnostics };
  const book = read.value;
  if (!book) return;
  const changes = changesOf(kept.book, book);
  const vocabulary = changes.named.size > 0 || changes.all ? vocabularyOf(book) : kept.vocabulary;
  const { ground, diagnostics } = groundOf(kept, { book, vocabulary }, changes);
  yield { name: 'named', diagnostics };
  const again = resolveChanged(kept, ground, { changes, path });
  yield { name: 'resolved', ...again.found };
  yield* judge(kept, { ground, changes, ...again });
}

function recallBut(recall: Recall, edited: Edited): Recall {
  return (file, context, make) => (file === edited.file ? moveBack(make(), edited) : recall(file, context, make));
}

/** Names and states with the change in them, and what is wrong with them. */
function groundOf(
  kept: Kept,
  { book, vocabulary }: Pick<Ground, 'book' | 'vocabulary'>,
  changes: Changes,
): { readonly ground: Ground; readonly diagnostics: readonly Diagnostic[] } {
  const world = changes.world ? worldOf(book, vocabulary) : { world: kept.resolved.world, faults: [] };
  const faults = [...namesAgain(book, { vocabulary, changes }), ...world.faults];
  const ground = { book, vocabulary, world: world.world };
  const shared = changes.numbers ? checkSharedNumbers(baseOf(book, vocabulary, world.world)) : [];
  return { ground, diagnostics: gatherFaults(book.unread, [withoutRigs(faults), ...shared]) };
}

function namesAgain(
  book: Book,
  { vocabulary, changes }: Pick<Ground, 'vocabulary'> & { readonly changes: Changes },
): ReturnType<typeof checkNamesOf> {
  const procedures = [...changes.named].flatMap((name) => {
    const procedure = name.startsWith('procedure ') ? book.procedures.get(name.slice('procedure '.length)) : undefined;
    return procedure ?? [];
  });
  const [only] = procedures;
  if (changes.parts.size === 0) return [];
  if (only && procedures.length === changes.named.size && changes.parts.size === 1) {
    return procedures.flatMap((procedure) => checkNamesAgain(book, vocabulary, procedure));
  }
  return checkNamesOf(book, vocabulary);
}

interface Again {
  readonly world: World;
  readonly procedures: ReadonlyMap<string, KeptProcedure>;
  /** The ids of those that were worked out again, the edited one first. */
  readonly affected: readonly string[];
  readonly found: Pick<Stage, 'diagnostics' | 'sameMeaning' | 'variants'>;
}

/** Works out again what the change reaches. */
function resolveChanged(
  kept: Kept,
  ground: Ground,
  { changes, path }: { readonly changes: Changes; readonly path: string },
): Again {
  const isOwn = (id: string): boolean => ground.book.procedures.get(id)?.file === path;
  const reached = [...ground.book.procedures.keys()].filter((id) => {
    const reads = kept.procedures.get(id)?.reads;
    return (
      changes.all ||
      !reads ||
      changes.named.has(`procedure ${id}`) ||
      [...changes.named].some((name) => reads.has(name))
    );
  });
  const affected = reached.sort((a, b) => Number(isOwn(b)) - Number(isOwn(a)) || (a < b ? -1 : 1));
  const procedures = new Map([...kept.procedures].filter(([id]) => ground.book.procedures.has(id)));
  const runs = affected.flatMap((id) => {
    const { variants, reads, runs: met } = resolveAgain(ground, id);
    procedures.set(id, { variants, reads });
    return met;
  });
  const variants = affected.flatMap((id) => procedures.get(id)?.variants ?? []);
  const world = { world: ground.world, isSame: !changes.world || same(kept.resolved.world, ground.world) };
  const isSame =
    world.isSame &&
    [...changes.parts].every((part) => saidElsewhere.has(part)) &&
    affected.every((id) => samePages(kept, procedures, id));
  const diagnostics = gatherFaults(ground.book.unread, runs);
  return { world: ground.world, procedures, affected, found: { diagnostics, sameMeaning: isSame, variants } };
}

/** Parts of a book whose meaning stands in the variants and in the world. */
const saidElsewhere: ReadonlySet<string> = new Set([
  'machines',
  'headers',
  'instruments',
  'procedures',
  'states',
  'physics',
  'rules',
  'ends',
  'bundles',
  'waivers',
]);

function samePages(kept: Kept, procedures: ReadonlyMap<string, KeptProcedure>, id: string): boolean {
  const said = (variants: readonly Variant[] = []): unknown =>
    variants.map(({ hash, rigs, procedure }) => [
      hash,
      rigs,
      procedure.source.verified.map(({ machine, how }) => [machine.value, how.value]),
    ]);
  return same(said(kept.procedures.get(id)?.variants), said(procedures.get(id)?.variants));
}

interface Judging extends Again {
  readonly ground: Ground;
  readonly changes: Changes;
}

function* judge(kept: Kept, judging: Judging): Generator<Stage, void> {
  const { ground, changes, procedures, affected, found } = judging;
  const { sameMeaning, variants = [] } = found;
  const all = [...procedures].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([, one]) => one.variants);
  const { today } = kept.input;
  const resolved = { ...kept.resolved, book: ground.book, world: ground.world, variants: all };
  const context: Context = { resolved, book: ground.book, ...(today === undefined ? {} : { today }) };
  const ids = new Set(affected);
  const shows: Shows = (of) => ids.has('variant' in of ? of.variant.procedure.id : of.procedure);
  const proofs = new Map<string, OrderResult>();
  for (const [id, proof] of kept.proofs) proofs.set(id, proof);
  const stage = (name: Stage['name'], diagnostics: readonly Diagnostic[]): Stage => ({
    name,
    diagnostics: [...diagnostics].sort(byPlace),
    ...(sameMeaning === undefined ? {} : { sameMeaning }),
    variants,
  });
  const { plain, proving, whole } = rulesByReach(kept, changes, affected.length > 0);
  yield stage('judged', runRules(plain, context, proofs, shows));
  const results = changes.world ? new Map<string, OrderResult>() : new Map(kept.known);
  for (const variant of changes.world ? [...variants, ...all.filter((one) => !variants.includes(one))] : variants) {
    proofs.set(variant.id, proveOnce(variant, ground.world, results));
    const own: Shows = (of) => 'variant' in of && of.variant === variant;
    yield stage('proved', runRules(proving, context, proofs, own));
  }
  yield stage('whole', runRules(whole, context, proofs));
}

/** Rules by what they have to be shown again: what the change reaches, its proofs, or everything. */
function rulesByReach(
  kept: Kept,
  changes: Changes,
  isAffected: boolean,
): Readonly<Record<'plain' | 'proving' | 'whole', readonly AnyRule[]>> {
  const lookedAt = new Set([...changes.parts].map((part) => `book.${part}`));
  if (isAffected) for (const part of ['resolved.variants', 'book.procedures', 'proofs']) lookedAt.add(part);
  if (changes.world) for (const part of ['resolved.world', 'proofs']) lookedAt.add(part);
  const looksFurther = ({ id }: AnyRule): boolean => [...(kept.looks.get(id) ?? [])].some((part) => lookedAt.has(part));
  const isWhole = (rule: AnyRule): boolean => rule.needs === 'book' || rule.needs === 'proofs' || looksFurther(rule);
  return {
    whole: rules.filter(isWhole),
    plain: rules.filter((rule) => !isWhole(rule) && rule.needs !== 'proof'),
    proving: rules.filter((rule) => rule.needs === 'proof'),
  };
}

// Checks a kept book again after an edit, as far as the edit reaches, in stages: whoever only asks whether anything is
// noticed stops at the first stage that says so. What it finds is what a full check finds. Pure.
//
//   file ─read─▶ names, states ─▶ procedures that read what changed ─▶ rules ─▶ their proofs, by procedure ─▶ the whole book

import type { Diagnostic } from '../diagnostic/diagnostic.js';
import type { Variant } from '../model/resolved.js';
import type { OrderResult } from '../order/result.js';
import { readBook } from '../read/book.js';
import { gatherFaults } from '../resolve/faults.js';
import { checkNamesOf } from '../resolve/names/check.js';
import { freshScene, withoutRigs, worldOf } from '../resolve/resolve.js';
import { type SharedNumber, sharedNumbers } from '../resolve/shared-numbers.js';
import { vocabularyOf } from '../resolve/vocabulary.js';
import { rules } from '../rules/index.js';
import { runRules } from '../rules/run.js';
import type { Edited } from '../text/edited.js';
import type { Keep } from '../text/keep.js';
import { moveBack } from '../text/moved.js';
import { type Changes, changesOf } from './changes.js';
import {
  baseOf,
  type Ground,
  type Kept,
  type KeptNumber,
  proveOnce,
  resolveIn,
  todayOf,
  unreadableOf,
} from './kept.js';
import { moveBookBack } from './moved-book.js';
import { same } from './same.js';

/** What one stage found. Places are those of the book before the edit. */
export interface Stage {
  readonly name: 'read' | 'named' | 'resolved' | 'judged' | 'proved' | 'whole';
  readonly diagnostics: readonly Diagnostic[];
  /** From `resolved` on: whether every page, state, rule and number of the book says what it said before. */
  readonly sameMeaning?: boolean;
}

/**
 * The stages of checking a kept book with `edited` in the place of one of its files, with all rules but those of `without`.
 * Ends after a stage with a new error.
 */
export function* checkAgain(
  kept: Kept,
  edited: Edited,
  without: ReadonlySet<string> = new Set(),
): Generator<Stage, void> {
  const known = new Set(kept.diagnostics.filter(({ severity }) => severity === 'error').map(placeKey));
  for (const stage of stagesOf(kept, edited, without)) {
    yield stage;
    if (stage.diagnostics.some((one) => one.severity === 'error' && !known.has(placeKey(one)))) return;
  }
}

/** The code and the place of a diagnostic: what tells one from another. */
export function placeKey({ code, at }: Pick<Diagnostic, 'code' | 'at'>): string {
  return `${code} ${at.file} ${at.start} ${at.end}`;
}

function* stagesOf(kept: Kept, edited: Edited, without: ReadonlySet<string>): Generator<Stage, void> {
  const { path } = edited.file;
  const { input, keep } = kept;
  const sources = new Map(input.sources).set(path, edited.file);
  const read = readBook(sources, input.figures, { ...unreadableOf(input), keep });
  yield { name: 'read', diagnostics: moveBack(read.diagnostics, edited) };
  if (!read.value) return;
  const book = moveBookBack(read.value, edited);
  const changes = changesOf(kept.book, book);
  const { ground, diagnostics } = groundOf(kept, book, { changes, path });
  yield { name: 'named', diagnostics };
  const again = resolveChanged(kept, ground, { changes, path });
  yield { name: 'resolved', diagnostics: again.diagnostics, sameMeaning: again.sameMeaning };
  yield* judge(kept, ground, { ...again, changes, without });
}

/** Names, states and shared numbers with the change in them, and what is wrong with them. */
function groundOf(
  kept: Kept,
  book: Ground['book'],
  { changes, path }: { readonly changes: Changes; readonly path: string },
): { readonly ground: Ground; readonly diagnostics: readonly Diagnostic[] } {
  const isShared = [...changes.parts].some((part) => part !== 'procedures');
  const own = isShared ? vocabularyOf(book) : kept.vocabulary;
  // where the same things are declared, names in procedures name what they named
  const vocabulary = !changes.all && same(own, kept.vocabulary) ? kept.vocabulary : own;
  const keep: Keep = (slot, parts, make) =>
    isShared && slot === 'shared names' ? make() : kept.keep(slot, parts, make);
  const scene = freshScene(book, vocabulary);
  const { world, faults } = changes.world ? worldOf(scene) : { world: kept.resolved.world, faults: [] };
  const names = checkNamesOf(book, vocabulary, keep);
  const isKnown = ({ file, isAgreement }: SharedNumber, { reads }: KeptNumber): boolean =>
    !changes.all && !changes.world && !(isAgreement && file === path) && isDisjoint(reads, changes.named);
  const shared = (changes.numbers ? sharedNumbers(book) : []).map((number) => {
    const known = kept.numbers.get(number.key);
    return known && isKnown(number, known) ? known.run : number.explore({ ...scene, world });
  });
  const diagnostics = gatherFaults(book.unread, [withoutRigs(names), withoutRigs(faults), ...shared]);
  return { ground: { book, vocabulary, world }, diagnostics };
}

function isDisjoint(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  for (const one of b) if (a.has(one)) return false;
  return true;
}

interface Again {
  /** By procedure. */
  readonly procedures: ReadonlyMap<string, readonly Variant[]>;
  /** The ids of those that were worked out again, the edited one first. */
  readonly affected: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
  readonly sameMeaning: boolean;
}

/** Works out again what the change reaches. */
function resolveChanged(
  kept: Kept,
  ground: Ground,
  { changes, path }: { readonly changes: Changes; readonly path: string },
): Again {
  const isOwn = (id: string): boolean => ground.book.procedures.get(id)?.file === path;
  const isReached = (id: string): boolean => {
    const reads = kept.procedures.get(id)?.reads;
    return changes.all || !reads || isOwn(id) || !isDisjoint(reads, changes.named);
  };
  const affected = [...ground.book.procedures.keys()]
    .filter(isReached)
    .sort((a, b) => Number(isOwn(b)) - Number(isOwn(a)) || (a < b ? -1 : 1));
  const procedures = new Map(
    [...kept.procedures].flatMap(([id, { variants }]) =>
      ground.book.procedures.has(id) ? [[id, variants] as const] : [],
    ),
  );
  const base = baseOf(ground, knownBesides(kept, ground, { changes, affected }));
  const runs = affected.flatMap((id) => {
    const procedure = ground.book.procedures.get(id);
    const { variants, runs: met } = procedure ? resolveIn(base, procedure) : { variants: [], runs: [] };
    procedures.set(id, variants);
    return met;
  });
  const sameMeaning =
    (!changes.world || same(kept.resolved.world, ground.world)) &&
    [...changes.parts].every((part) => saidElsewhere.has(part)) &&
    affected.every((id) => samePages(kept, procedures, id));
  return { procedures, affected, diagnostics: gatherFaults(ground.book.unread, runs), sameMeaning };
}

/** Where only procedures are others, what was worked out of all that the change does not reach. */
function knownBesides(
  { ground: { memory, digests }, vocabulary, resolved }: Kept,
  ground: Ground,
  { changes, affected }: { readonly changes: Changes; readonly affected: readonly string[] },
): Kept['ground'] | undefined {
  const isShared = [...changes.parts].some((part) => part !== 'procedures' && part !== 'waivers');
  if (isShared || changes.all || ground.vocabulary !== vocabulary || ground.world !== resolved.world) return undefined;
  const known = new Map(memory);
  for (const id of affected) known.delete(id);
  return { memory: known, digests };
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

function samePages(kept: Kept, procedures: Again['procedures'], id: string): boolean {
  const said = (variants: readonly Variant[] = []): unknown =>
    variants.map(({ hash, rigs, procedure: { source } }) => {
      return [hash, rigs, source.verified.map(({ machine, how }) => [machine.value, how.value])];
    });
  return same(said(kept.procedures.get(id)?.variants), said(procedures.get(id)));
}

type Needs = (typeof rules)[number]['needs'];

/** Rules that are shown one of these, but those that are left out. */
function rulesFor(without: ReadonlySet<string>, ...shown: readonly Needs[]): typeof rules {
  return rules.filter(({ id, needs }) => shown.includes(needs) && !without.has(id));
}

function* judge(
  kept: Kept,
  ground: Ground,
  {
    procedures,
    affected,
    changes,
    sameMeaning,
    without,
  }: Again & {
    readonly changes: Changes;
    readonly without: ReadonlySet<string>;
  },
): Generator<Stage, void> {
  const { keep, memory } = kept;
  const ordered = [...procedures].sort(([a], [b]) => (a < b ? -1 : 1));
  const variants = ordered.flatMap(([, one]) => one);
  const resolved = { ...kept.resolved, book: ground.book, world: ground.world, variants };
  const proofs = new Map(kept.proofs);
  for (const id of affected) for (const variant of kept.procedures.get(id)?.variants ?? []) proofs.delete(variant.id);
  // rules look whether the proofs are the ones that they saw before
  let seen = new Map(proofs);
  const judged = (name: Stage['name'], of: typeof rules, only: { readonly procedure?: string } = {}): Stage => {
    const context = { resolved, book: ground.book, proofs: seen, ...todayOf(kept.input) };
    return { name, diagnostics: runRules(of, context, { keep, memory, ...only }), sameMeaning };
  };
  yield judged('judged', rulesFor(without, 'procedure', 'variant', 'value'));
  const results = changes.world ? new Map<string, OrderResult>() : new Map(kept.known);
  const others = ordered.map(([id]) => id).filter((id) => !affected.includes(id));
  if (changes.world) for (const variant of variants) proofs.delete(variant.id);
  const ofProofs = rulesFor(without, 'proof');
  for (const id of changes.world ? [...affected, ...others] : affected) {
    for (const variant of procedures.get(id) ?? []) {
      proofs.set(variant.id, proveOnce(variant, ground.world, results));
    }
    seen = new Map(proofs);
    yield judged('proved', ofProofs, { procedure: id });
  }
  yield judged('proved', ofProofs);
  yield judged('whole', rulesFor(without, 'book', 'proofs'));
}

// A book as written to a book worked out: each procedure for each kind of rig, equal ones merged. Pure.

import type { Findings } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { Procedure } from '../model/procedure.js';
import type {
  End,
  ResolvedBook,
  ResolvedBranch,
  ResolvedProcedure,
  ResolvedStep,
  Variant,
  World,
} from '../model/resolved.js';
import { type Keep, keepNothing } from '../text/keep.js';
import { exploreRigs } from './explore.js';
import { type Ask, anyRig, type PartialRig, pairsOf } from './facets.js';
import { type Fault, type FaultRun, gatherFaults } from './faults.js';
import { reportIdle, reportUnmatched } from './idle.js';
import { checkNamesOf } from './names/check.js';
import { findProcedure, runProcedure } from './procedure.js';
import { readRig } from './rig-text.js';
import type { Scene } from './scene.js';
import { checkSharedNumbers } from './shared-numbers.js';
import { type Reading, variantsOf } from './variants.js';
import { type Vocabulary, vocabularyOf } from './vocabulary.js';
import { resolveWorld } from './world.js';

/** Ways in which the answers of a procedure may fall, at the most. */
const mostLeaves = 4096;

export interface ResolveOptions {
  /** Only these rigs: `tarn-40+row-12x20`; parts left out mean all. */
  readonly rig?: string;
  /** What was worked out before. */
  readonly keep?: Keep;
}

/**
 * Works out every procedure for every rig that it applies to, and reports what stands in the way. With `keep`, variants of
 * procedures that are the same as before, in a book whose shared files are, are the very same objects.
 */
export function resolveBook(book: Book, { rig, keep = keepNothing }: ResolveOptions = {}): Findings<ResolvedBook> {
  const shared = sharedOf(book, keep);
  const { world, vocabulary } = shared;
  const nameFaults = checkNamesOf(book, vocabulary, keep);
  const start = keep('start', [vocabulary, rig], () => startOf(book, rig));
  const misnamed = new Set(nameFaults.map(({ at }) => at.file));
  forgetChanged(book, shared);
  const found = (start.rig ? [...book.procedures.keys()].sort() : []).flatMap((id) => {
    const procedure = book.procedures.get(id);
    if (!procedure || !start.rig) return [];
    const extent = { start: start.rig, isWhole: rig === undefined && !mayFollow(book, procedure, misnamed) };
    const parts = [vocabulary, start, extent.isWhole, idsOf(book), ...usedBy(book, procedure)];
    return keep(`rigs ${id}`, parts, () => resolveRigs({ ...shared, book, within: [] }, procedure, extent));
  });
  const variants = found.flatMap((one) => one.variants);
  const names = [withoutRigs(nameFaults), ...shared.runs, withoutRigs(start.faults)];
  const faults = gatherFaults(book.unread, [...names, ...found.flatMap(({ runs }) => runs)]);
  const rigs = keep('pairs', [vocabulary], () => pairsOf(book));
  return {
    value: { book, world, variants: keep('variants', variants, () => variants), rigs },
    diagnostics: faults,
  };
}

/** A scene for every rig of the book, before one is asked about. */
export type Base = Omit<Scene, 'ask' | 'report'> & { readonly world: World; readonly digests: WeakMap<object, string> };

/** What comes of the shared files alone, and what is known by now of the procedures in their light. */
type Shared = Pick<Base, 'world' | 'vocabulary' | 'choices' | 'memory' | 'digests'> & {
  readonly runs: readonly FaultRun[];
  /** By procedure, what it was when the memory was filled. */
  readonly seen: Map<string, readonly Procedure[]>;
};

function sharedOf(book: Book, keep: Keep): Shared {
  const { procedures: _, figures: _figures, terms: _terms, fleet: _fleet, issued: _issued, ...rest } = book;
  const { waivers: _waivers, unread, ...parts } = rest;
  // files of procedures that cannot be read are none that numbers or words come from
  const gaps = [...unread].filter((file) => !file.endsWith('.md')).sort();
  return keep('shared', [...Object.values(parts), gaps.join('\n')], () => {
    const scene = freshScene(book, vocabularyOf(book));
    const { faults, ...resolved } = worldOf(scene);
    // a world that says the same is the same: what was proved in it holds on
    const world = keep('world', [textOf(resolved.world)], () => resolved.world);
    const numbers = checkSharedNumbers({ ...scene, world });
    const { vocabulary, choices, memory } = scene;
    const runs = [withoutRigs(faults), ...numbers];
    return { vocabulary, choices, memory, world, runs, digests: new WeakMap(), seen: new Map() };
  });
}

/** A scene in which nothing has been worked out yet. */
export function freshScene(book: Book, vocabulary: Vocabulary): Omit<Base, 'world' | 'digests'> {
  const choices = { met: new Map<string, Set<object>>(), picked: new WeakSet<object>() };
  return { book, vocabulary, choices, memory: new Map(), within: [] };
}

/** States, physics and rules, and what is wrong with them. */
export function worldOf(scene: Omit<Base, 'world' | 'digests'>): {
  readonly world: World;
  readonly faults: readonly Fault[];
} {
  const faults: Fault[] = [];
  const report = (fault: Fault): void => void faults.push(fault);
  return { world: resolveWorld({ ...scene, rigless: true, report, ask: askNobody }), faults };
}

/** Everything that an object says, places included. */
function textOf(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => {
    if (typeof part === 'bigint') return `${part}n`;
    return part instanceof Map ? [...part] : part;
  });
}

function askNobody(): never {
  throw new Error('What holds for all rigs alike asked about a rig');
}

function idsOf(book: Book): string {
  return [...book.procedures.keys()].sort().join(' ');
}

/** A procedure with all that it may run, at its steps or at its ends. */
function usedBy(book: Book, procedure: Procedure): readonly Procedure[] {
  const used = new Set([procedure]);
  const atEnds = [...book.ends.values()].map(({ run }) => run);
  // a set is walked to its end, however much is added to it on the way
  for (const each of used) {
    for (const run of [...each.steps.map((step) => step.run), ...atEnds]) {
      const callee = run && book.procedures.get(run.value);
      if (callee) used.add(callee);
    }
  }
  return [...used];
}

/** Forgets all that was worked out of procedures that have changed, or that use one which has. */
function forgetChanged(book: Book, { seen, memory, choices }: Shared): void {
  for (const [id, before] of seen) {
    const procedure = book.procedures.get(id);
    const now = procedure ? usedBy(book, procedure) : [];
    if (now.length === before.length && now.every((each, i) => each === before[i])) continue;
    memory.delete(id);
    seen.delete(id);
    for (const file of before[0] ? filesOf(before[0]) : []) choices.met.delete(file);
  }
  for (const [id, procedure] of book.procedures) if (!seen.has(id)) seen.set(id, usedBy(book, procedure));
}

function filesOf({ file, translations }: Procedure): readonly string[] {
  return [file, ...[...translations.values()].map((translation) => translation.file)];
}

/** What was met whatever the rig. */
export function withoutRigs(faults: readonly Fault[]): FaultRun {
  const rig: PartialRig = { pairs: [], options: new Map(), software: new Map() };
  return { files: new Set(faults.map(({ at }) => at.file)), leaves: [{ rig, faults }] };
}

function startOf(
  book: Book,
  text: string | undefined,
): { readonly rig?: PartialRig; readonly faults: readonly Fault[] } {
  if (text === undefined) return { rig: anyRig(book), faults: [] };
  const read = readRig(book, text);
  if (read.ok) return { rig: read.rig, faults: [] };
  const { message, help } = read;
  return { faults: [{ code: 'unknown-rig', message, help, at: book.settings.title.at }] };
}

export interface Extent {
  readonly start: PartialRig;
  /** Whether these are sure to be all rigs that are meant: what none of them uses is then used by none. */
  readonly isWhole: boolean;
}

/** Whether what no rig uses may follow from a file that could not be read, or from a wrong name. */
function mayFollow(book: Book, { file }: Procedure, misnamed: ReadonlySet<string>): boolean {
  const ofRigs = (path: string): boolean => /^(machines|headers)\//.test(path);
  return misnamed.has(file) || [...misnamed, ...book.unread].some(ofRigs);
}

/** One procedure for all rigs that `extent` leaves open. */
export function resolveRigs(
  base: Base,
  procedure: Procedure,
  { start, isWhole }: Extent,
): { readonly variants: readonly Variant[]; readonly runs: readonly FaultRun[] } {
  if (start.pairs.length === 0) return { variants: [], runs: isWhole ? [withoutRigs([toNothing(procedure)])] : [] };
  const { leaves, complete } = exploreRigs(base.book, { start, most: mostLeaves }, (ask: Ask) => {
    const faults: Fault[] = [];
    const scene: Scene = { ...base, ask, report: (fault) => faults.push(fault) };
    const found = findProcedure(scene, procedure);
    return { found, ends: found ? endsOf(scene, found) : new Map<End, ResolvedProcedure>(), faults };
  });
  const applying = leaves.filter(({ value }) => value.found);
  const files = new Set(filesOf(procedure));
  const run: FaultRun = { files, leaves: applying.map(({ rig, value }) => ({ rig, faults: value.faults })) };
  const own: Fault[] = [];
  if (!complete) own.push(tooMany(procedure));
  else if (applying.length === 0 && isWhole) own.push(toNothing(procedure));
  else if (applying.length > 0 && isWhole) {
    reportIdle(base, procedure, (fault) => own.push(fault));
    const pairs = applying.flatMap(({ rig }) => rig.pairs);
    reportUnmatched(procedure, pairs, (fault) => own.push(fault));
  }
  // a part of all rigs is none to prove or to build anything from
  const readings = (complete ? applying : []).flatMap(({ rig, value: { found, ends } }): readonly Reading[] =>
    found ? [{ rig, procedure: found, ends }] : [],
  );
  return { variants: variantsOf(base.book, readings, base.digests), runs: [run, withoutRigs(own)] };
}

function tooMany({ title }: Procedure): Fault {
  return {
    code: 'too-many-rigs',
    message: `This procedure differs in more than ${mostLeaves} ways between rigs, and was not worked out for all of them`,
    at: title.at,
    help: 'Split it into procedures that each ask for fewer options, serials and versions.',
  };
}

function toNothing({ applies }: Procedure): Fault {
  return {
    code: 'applies-to-nothing',
    message: 'This procedure applies to no machine with a header that fits it',
    at: applies.at,
    help: 'One machine with one header must meet all that stands under `applies`. Compare it with `headers`, `options`, `serials` and `software` in the file of the machine, and with `type` in the file of the header.',
  };
}

/** What is run at the ends that the procedure can lead to. */
function endsOf(scene: Scene, procedure: ResolvedProcedure): ReadonlyMap<End, ResolvedProcedure> {
  const targets = new Set(targetsOf(procedure));
  const ends = new Map<End, ResolvedProcedure>();
  for (const end of ['stop', 'call-service'] as const) {
    const run = targets.has(end) ? scene.book.ends.get(end)?.run : undefined;
    const found = run && runProcedure(scene, run, 'end');
    if (found) ends.set(end, found);
  }
  return ends;
}

function* targetsOf({ steps }: ResolvedProcedure): Iterable<string> {
  for (const step of steps) {
    for (const branch of branchesOf(step)) yield* followBranch(branch);
    if (step.run) yield* targetsOf(step.run);
  }
}

function branchesOf({ otherwise, when, answers, then }: ResolvedStep): readonly ResolvedBranch[] {
  const written = [...(otherwise ? [otherwise] : []), ...when.values(), ...(then ? [then] : [])];
  return [...written, ...answers.map(({ branch }) => branch)];
}

function* followBranch({ go, otherwise }: ResolvedBranch): Iterable<string> {
  yield go;
  if (otherwise) yield* followBranch(otherwise);
}

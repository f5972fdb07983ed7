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
import { vocabularyOf } from './vocabulary.js';
import { resolveWorld } from './world.js';

/** Ways in which the answers of a procedure may fall, at the most. */
const mostLeaves = 4096;

export interface ResolveOptions {
  /** Only these rigs: `tarn-40+row-12x20`; parts left out mean all. */
  readonly rig?: string;
}

/** Works out every procedure for every rig that it applies to, and reports what stands in the way. */
export function resolveBook(book: Book, options: ResolveOptions = {}): Findings<ResolvedBook> {
  const vocabulary = vocabularyOf(book);
  const shared = {
    book,
    vocabulary,
    choices: { met: new Map<string, Set<object>>(), picked: new Set<object>() },
    memory: new Map(),
    within: [],
  };
  const nameFaults = checkNamesOf(book, vocabulary);
  const runs: FaultRun[] = [withoutRigs(nameFaults)];
  const worldFaults: Fault[] = [];
  const world = resolveWorld({ ...shared, rigless: true, report: (fault) => worldFaults.push(fault), ask: askNobody });
  runs.push(withoutRigs(worldFaults));
  const start = startOf(book, options.rig);
  runs.push(withoutRigs(start.faults));
  const base: Base = { ...shared, world };
  const misnamed = new Set(nameFaults.map(({ at }) => at.file));
  runs.push(...checkSharedNumbers(base));
  const variants: Variant[] = [];
  const digests = new WeakMap<object, string>();
  for (const id of start.rig ? [...book.procedures.keys()].sort() : []) {
    const procedure = book.procedures.get(id);
    if (!procedure || !start.rig) continue;
    const found = resolveRigs(base, procedure, {
      start: start.rig,
      isWhole: options.rig === undefined && !mayFollow(book, procedure, misnamed),
    });
    runs.push(...found.runs);
    variants.push(...variantsOf(book, found.readings, digests));
  }
  return { value: { book, world, variants, rigs: pairsOf(book) }, diagnostics: gatherFaults(book.unread, runs) };
}

/** A scene for every rig of the book, before one is asked about. */
type Base = Omit<Scene, 'ask' | 'report'> & { readonly world: World };

function askNobody(): never {
  throw new Error('What holds for all rigs alike asked about a rig');
}

function withoutRigs(faults: readonly Fault[]): FaultRun {
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

interface Extent {
  readonly start: PartialRig;
  /** Whether these are sure to be all rigs that are meant: what none of them uses is then used by none. */
  readonly isWhole: boolean;
}

/** Whether what no rig uses may follow from a file that could not be read, or from a wrong name. */
function mayFollow(book: Book, { file }: Procedure, misnamed: ReadonlySet<string>): boolean {
  const ofRigs = (path: string): boolean => /^(machines|headers)\//.test(path);
  return misnamed.has(file) || [...misnamed, ...book.unread].some(ofRigs);
}

function resolveRigs(
  base: Base,
  procedure: Procedure,
  { start, isWhole }: Extent,
): { readonly readings: readonly Reading[]; readonly runs: readonly FaultRun[] } {
  if (start.pairs.length === 0) return { readings: [], runs: isWhole ? [withoutRigs([toNothing(procedure)])] : [] };
  const { leaves, complete } = exploreRigs(base.book, { start, most: mostLeaves }, (ask: Ask) => {
    const faults: Fault[] = [];
    const scene: Scene = { ...base, ask, report: (fault) => faults.push(fault) };
    const found = findProcedure(scene, procedure);
    return { found, ends: found ? endsOf(scene, found) : new Map<End, ResolvedProcedure>(), faults };
  });
  const applying = leaves.filter(({ value }) => value.found);
  const files = new Set([procedure.file, ...[...procedure.translations.values()].map(({ file }) => file)]);
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
  const readings = (complete ? applying : []).flatMap(({ rig, value: { found, ends } }) =>
    found ? [{ rig, procedure: found, ends }] : [],
  );
  return { readings, runs: [run, withoutRigs(own)] };
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
    help: 'Look at whether one rig can meet all keys at once: the headers that fit the machine, its options, serials and software.',
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

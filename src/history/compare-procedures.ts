// One procedure in two books: its rigs are laid over each other, each pair of versions is compared once, and what changed
// alike for several rigs is said once.

import type { Change, ProcedureChange, RevisionAlert } from '../model/comparison.js';
import type { CompiledBook, PlainProcedure, PlainRig } from '../model/compiled-book.js';
import type { Rig } from '../model/resolved.js';
import type { RigMachines } from '../model/rig-lists.js';
import { compareText } from '../text/compare-text.js';
import { compareSheets, compareWeights, type RawChange, withOldNumber } from './compare-sheets.js';
import type { BookSense } from './condition-facts.js';
import type { FactSheet } from './fact-sheet.js';
import { movedBetween } from './order-of-steps.js';
import { procedureFacts, recordsOnly } from './procedure-facts.js';
import { boxesWithout, boxOf, sharedBox } from './rig-boxes.js';
import { writeRigs } from './rig-notation.js';
import { plain, ui } from './said.js';

/** A procedure as it reads for some rigs. */
export interface Reading {
  readonly procedure: PlainProcedure;
  readonly boxes: readonly Rig[];
}

/** Every procedure of a book by id, with its versions; those that are only run by others too. */
export function readingsOf({ variants }: CompiledBook): ReadonlyMap<string, readonly Reading[]> {
  const readings = new Map<string, Reading[]>();
  const add = (procedure: PlainProcedure, applies: readonly PlainRig[]): void => {
    readings.set(procedure.id, [...(readings.get(procedure.id) ?? []), { procedure, boxes: applies.map(boxOf) }]);
  };
  for (const { procedure, applies } of variants) add(procedure, applies);
  const own = new Set(readings.keys());
  const addRuns = (procedure: PlainProcedure, applies: readonly PlainRig[]): void => {
    for (const { run } of procedure.steps) {
      if (!run) continue;
      if (!own.has(run.id)) add(run, applies);
      addRuns(run, applies);
    }
  };
  for (const { procedure, applies, ends } of variants) {
    addRuns(procedure, applies);
    for (const end of ends) {
      if (!own.has(end.procedure.id)) add(end.procedure, applies);
      addRuns(end.procedure, applies);
    }
  }
  return readings;
}

/** What both books are read with. */
export interface Both {
  readonly before: BookSense;
  readonly after: BookSense;
  readonly machines: RigMachines;
  /** The language that the book is written in. */
  readonly first: string;
  /** What changed from one version to another, for rigs that had the one and have the other. */
  readonly compareVersions: CompareVersions;
}

export type CompareVersions = (before: PlainProcedure, after: PlainProcedure) => readonly RawChange[];

/** Rigs for which one version followed another. */
interface Cell {
  readonly box: Rig;
  readonly before: PlainProcedure;
  readonly after: PlainProcedure;
}

/** What changed in a procedure that both books have. */
export function compareProcedure(
  before: readonly Reading[],
  after: readonly Reading[],
  both: Both,
): ProcedureChange | undefined {
  const [old, now] = [before[0]?.procedure, after[0]?.procedure];
  if (!old || !now) return undefined;
  const cells = cellsOf(before, after);
  const changes = [...rigChanges(before, after, both), ...gather(cells, both)];
  const revision = { before: old.revision, after: now.revision };
  const alert = alertOf(revision, changes);
  if (changes.length === 0 && revision.before === revision.after) return undefined;
  return { id: now.id, title: now.title, how: 'changed', revision, ...(alert && { alert }), changes };
}

function cellsOf(before: readonly Reading[], after: readonly Reading[]): readonly Cell[] {
  return after.flatMap((now) =>
    before.flatMap((old) =>
      now.boxes.flatMap((box) =>
        old.boxes.flatMap((other) => {
          const shared = sharedBox(box, other);
          return shared ? [{ box: shared, before: old.procedure, after: now.procedure }] : [];
        }),
      ),
    ),
  );
}

/** A revision that does not tell what happened. A review or a trial alone asks for none. */
function alertOf(
  revision: { readonly before: number; readonly after: number },
  changes: readonly Change[],
): RevisionAlert | undefined {
  if (revision.after < revision.before) return 'lowered';
  const tells = changes.some(
    ({ about, how }) => !recordsOnly.has(about) && !about.startsWith('rigs-') && how !== 'renamed',
  );
  if (revision.after === revision.before) return tells ? 'kept' : undefined;
  return tells || changes.some(({ about }) => about.startsWith('rigs-')) ? undefined : 'idle';
}

function rigChanges(before: readonly Reading[], after: readonly Reading[], { machines }: Both): readonly Change[] {
  const [old, now] = [before, after].map((readings) => readings.flatMap(({ boxes }) => boxes));
  if (!old || !now) return [];
  const told = (about: string, own: readonly Rig[], other: readonly Rig[]): readonly Change[] => {
    const rest = boxesWithout(own, other, machines);
    if (rest.length === 0) return [];
    const kept = own.flatMap((box) => other.flatMap((one) => sharedBox(box, one) ?? []));
    const rigs = writeRigs(new Set(rest), [...rest, ...kept], machines);
    const how = about === 'rigs-gained' ? ('added' as const) : ('dropped' as const);
    return [{ about, how, weight: 'technical', rigs, ...(rigs.length === 0 && { after: ui('all-rigs') }) }];
  };
  return [...told('rigs-gained', now, old), ...told('rigs-lost', old, now)];
}

function gather(cells: readonly Cell[], both: Both): readonly Change[] {
  const boxes = cells.map(({ box }) => box);
  const found = new Map<string, { readonly raw: RawChange; readonly order: number; readonly wanted: Set<Rig> }>();
  for (const { box, before, after } of cells) {
    for (const [order, raw] of both.compareVersions(before, after).entries()) {
      const key = JSON.stringify(raw);
      const entry = found.get(key) ?? { raw, order, wanted: new Set() };
      entry.wanted.add(box);
      found.set(key, entry);
    }
  }
  const written = [...found].map(([key, { raw, order, wanted }]) => {
    const rigs = writeRigs(wanted, boxes, both.machines);
    return { key, order, place: rigs.join(), change: { ...raw, rigs } };
  });
  return written
    .sort(
      (a, b) =>
        compareWeights(a.change.weight, b.change.weight) ||
        a.order - b.order ||
        compareText(a.place, b.place) ||
        compareText(a.key, b.key),
    )
    .map(({ change }) => change);
}

/** Compares versions, each pair once; the sheet of each is written once. */
export function makeCompareVersions(
  sense: { readonly before: BookSense; readonly after: BookSense },
  first: string,
): CompareVersions {
  const [before, after] = [keepSheets(sense.before), keepSheets(sense.after)];
  const compared = new Map<PlainProcedure, Map<PlainProcedure, readonly RawChange[]>>();
  return (old, now) => {
    const known = compared.get(old)?.get(now);
    if (known) return known;
    const sheets = { before: before(old), after: after(now) };
    const found = [...movedSteps(old, now, sheets), ...compareSheets(sheets.before, sheets.after, first)];
    compared.set(old, (compared.get(old) ?? new Map()).set(now, found));
    return found;
  };
}

function keepSheets(sense: BookSense): (procedure: PlainProcedure) => FactSheet {
  const known = new Map<PlainProcedure, FactSheet>();
  return (procedure) => {
    const sheet = known.get(procedure) ?? procedureFacts(procedure, sense);
    known.set(procedure, sheet);
    return sheet;
  };
}

function movedSteps(
  before: PlainProcedure,
  after: PlainProcedure,
  sheets: { readonly before: FactSheet; readonly after: FactSheet },
): readonly RawChange[] {
  const [old, now] = [before.steps.map(({ id }) => id), after.steps.map(({ id }) => id)];
  const numberIn = ({ steps }: PlainProcedure, id: string): string =>
    steps.find((step) => step.id === id)?.number ?? '';
  return movedBetween(old, now).map((id) => {
    const fact = sheets.after.facts.get(`step:${id}`);
    const subject = withOldNumber(fact?.subject, sheets.before.facts.get(`step:${id}`)?.subject);
    return {
      about: 'itself',
      how: 'moved',
      weight: fact?.weight ?? 'technical',
      ...(subject && { subject }),
      before: ui('place', { number: plain(numberIn(before, id)) }),
      after: ui('place', { number: plain(numberIn(after, id)) }),
    };
  });
}

// Two compiled books to what changed from one to the other, by meaning. Pure: data in, data out.

import type { Change, Comparison, ProcedureChange } from '../model/comparison.js';
import type { CompiledBook } from '../model/compiled-book.js';
import { compareText } from '../text/compare-text.js';
import { compareHazards, comparePhysics, comparePictures } from './compare-hazards.js';
import { type Both, compareProcedure, makeCompareVersions, type Reading, readingsOf } from './compare-procedures.js';
import { compareSheets, compareWeights } from './compare-sheets.js';
import { safetyStatesOf, senseOf } from './condition-facts.js';
import { findRenames, type Rename, renamedSubject } from './renames.js';
import { machinesOf } from './rig-boxes.js';
import { plain } from './said.js';
import { sharedFacts } from './shared-facts.js';

/** What changed from `old` to `now`. The order of files, machines and procedures does not matter. */
export function compareBooks(old: CompiledBook, now: CompiledBook): Comparison {
  const { before, renames } = findRenames(old, now);
  const both = readBoth(before, now);
  const shared = compareShared(before, now, { both, renames });
  const [was, is] = [readingsOf(before), readingsOf(now)];
  const ids = [...new Set([...is.keys(), ...was.keys()])].sort(compareText);
  const touched = new Set(shared.flatMap(({ subject }) => (subject?.kind === 'hazard' ? [subject.id] : [])));
  const found = ids.flatMap((id) => {
    const change = procedureChange(id, { was: was.get(id), is: is.get(id), both });
    const own = withRenames(change, { id, is: is.get(id), renames });
    return own ? [settle(own, is.get(id), touched)] : [];
  });
  return {
    shared: shared.map((change) => withPrinted(change, { is, found })),
    procedures: found.sort((a, b) => compareGravity(a, b) || compareText(a.id, b.id)),
    unchanged: ids.length - found.length,
  };
}

/** What two books are read with; those of `before` have the names of `after` already. */
export function readBoth(before: CompiledBook, after: CompiledBook): Both {
  const safety = new Set([...safetyStatesOf(before), ...safetyStatesOf(after)]);
  const sense = { before: senseOf(before, safety), after: senseOf(after, safety) };
  const first = after.languages[0] ?? 'en';
  return {
    ...sense,
    machines: machinesOf(before, after),
    first,
    compareVersions: makeCompareVersions(sense, first),
  };
}

/** What changed in what all procedures share. */
export function compareShared(
  before: CompiledBook,
  after: CompiledBook,
  { both, renames }: { readonly both: Both; readonly renames: readonly Rename[] },
): readonly Change[] {
  const facts = compareSheets(sharedFacts(before, both.before), sharedFacts(after, both.after), both.first);
  const changes = [
    ...compareHazards(before, after, both),
    ...comparePhysics({ book: before, sense: both.before }, { book: after, sense: both.after }),
    ...facts.map((change): Change => ({ ...change, rigs: [] })),
    ...comparePictures(before, after),
    ...renames.filter(isShared).map(sayRename),
  ];
  return changes
    .map((change, i) => ({ change, i }))
    .sort((a, b) => compareWeights(a.change.weight, b.change.weight) || a.i - b.i)
    .map(({ change }) => change);
}

function isShared({ kind, within }: Rename): boolean {
  return kind === 'option' || (within === undefined && kind !== 'procedure');
}

function sayRename(rename: Rename): Change {
  return {
    about: 'itself',
    how: 'renamed',
    weight: 'text',
    subject: renamedSubject(rename),
    rigs: [],
    before: plain(rename.before),
    after: plain(rename.after),
  };
}

interface Sides {
  readonly was: readonly Reading[] | undefined;
  readonly is: readonly Reading[] | undefined;
  readonly both: Both;
}

function procedureChange(id: string, { was, is, both }: Sides): ProcedureChange | undefined {
  if (was && is) return compareProcedure(was, is, both);
  const procedure = (is ?? was)?.[0]?.procedure;
  if (!procedure) return undefined;
  const { title, revision } = procedure;
  return is
    ? { id, title, how: 'new', revision: { after: revision }, changes: [] }
    : { id, title, how: 'gone', revision: { before: revision }, changes: [] };
}

/** The renames of a procedure and of its parts go with what else changed in it. */
function withRenames(
  change: ProcedureChange | undefined,
  {
    id,
    is,
    renames,
  }: { readonly id: string; readonly is: readonly Reading[] | undefined; readonly renames: readonly Rename[] },
): ProcedureChange | undefined {
  const own = renames
    .filter(({ kind, within, after }) => (kind === 'procedure' ? after === id : kind !== 'option' && within === id))
    .map(sayRename);
  const procedure = is?.[0]?.procedure;
  if (own.length === 0 || !procedure) return change;
  const { title, revision } = procedure;
  const bare: ProcedureChange = {
    id,
    title,
    how: 'changed',
    revision: { before: revision, after: revision },
    changes: [],
  };
  const base = change ?? bare;
  return { ...base, changes: [...base.changes, ...own] };
}

/** A revision that went up for the sake of a caution is not idle. */
function settle(
  change: ProcedureChange,
  is: readonly Reading[] | undefined,
  touched: ReadonlySet<string>,
): ProcedureChange {
  const hazards = is?.flatMap(({ procedure }) => procedure.hazards) ?? [];
  if (change.alert !== 'idle' || !hazards.some((id) => touched.has(id))) return change;
  const { alert: _, ...rest } = change;
  return rest;
}

/** Of a change in a hazard: the procedures that print it, and whose revision did not go up. */
function withPrinted(
  change: Change,
  { is, found }: { readonly is: ReadonlyMap<string, readonly Reading[]>; readonly found: readonly ProcedureChange[] },
): Change {
  const { subject, how } = change;
  if (subject?.kind !== 'hazard' || how === 'renamed' || how === 'respelled') return change;
  const raised = new Set(
    found.filter(({ revision }) => (revision.after ?? 0) > (revision.before ?? 0)).map(({ id }) => id),
  );
  const printed = [...is]
    .filter(
      ([id, readings]) => !raised.has(id) && readings.some(({ procedure }) => procedure.hazards.includes(subject.id)),
    )
    .map(([id]) => id)
    .sort(compareText);
  return printed.length === 0 ? change : { ...change, printed };
}

/** Safety first, then by what the worst change is. */
function compareGravity(a: ProcedureChange, b: ProcedureChange): number {
  const gravity = ({ how, alert, changes }: ProcedureChange): number => {
    const worst =
      changes.map(({ weight }) => weight).sort(compareWeights)[0] ?? (how === 'changed' ? 'text' : 'technical');
    return (alert === 'kept' ? 0 : 1) + 2 * ['safety', 'technical', 'text'].indexOf(worst);
  };
  return gravity(a) - gravity(b);
}

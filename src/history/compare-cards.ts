// What changed for printed cards since a release: each card is laid over what the book has now for its rigs.

import type { CardChange, Change } from '../model/comparison.js';
import type { CompiledBook, PlainProcedure } from '../model/compiled-book.js';
import { compareShared, readBoth } from './compare.js';
import { type Both, compareProcedure, type Reading, readingsOf } from './compare-procedures.js';
import type { Release } from './release.js';
import { findRenames } from './renames.js';
import { boxOf, sharedBox } from './rig-boxes.js';

/** What changed since a release, by the codes of its cards. */
export function compareCards(release: Release, now: CompiledBook): ReadonlyMap<string, CardChange> {
  const { before, renames } = findRenames(release.book, now);
  const both = readBoth(before, now);
  const shared = compareShared(before, now, { both, renames });
  const readings = readingsOf(now);
  const found = before.variants.flatMap(({ procedure, applies, cards }) =>
    cards.map(({ machine, code }): readonly [string, CardChange] => {
      const boxes = applies.filter((rig) => rig.machine === machine).map(boxOf);
      const known = { procedure, boxes };
      const after = readingsFor(known, readings.get(procedure.id) ?? []);
      return [code, cardChange(known, after, { shared, both, date: release.date })];
    }),
  );
  return new Map(found);
}

/** What the book has now for the rigs of a card. */
function readingsFor({ boxes }: Reading, all: readonly Reading[]): readonly Reading[] {
  return all
    .map(({ procedure, boxes: own }) => ({
      procedure,
      boxes: own.flatMap((box) => boxes.flatMap((other) => sharedBox(box, other) ?? [])),
    }))
    .filter(({ boxes: own }) => own.length > 0);
}

interface Around {
  readonly shared: readonly Change[];
  readonly both: Both;
  readonly date: string;
}

function cardChange(card: Reading, after: readonly Reading[], { shared, both, date }: Around): CardChange {
  const { revision } = card.procedure;
  const [first] = after;
  const pairs = new Map(card.boxes.map(({ machine, header }) => [`${machine} ${header}`, { machine, header }]));
  const rigs = [...pairs.values()];
  if (!first) return { revision, date, rigs, changes: [] };
  const own = compareProcedure([card], after, both)?.changes ?? [];
  const versions = [card.procedure, ...after.map(({ procedure }) => procedure)];
  return {
    revision,
    date,
    rigs,
    procedure: { id: first.procedure.id, revision: first.procedure.revision },
    changes: [...shared.filter((change) => isPrinted(change, versions)), ...own].filter(standsOnCards),
  };
}

/** Whether a change in a shared file stands on the cards of a procedure. */
function isPrinted({ about, subject }: Change, versions: readonly PlainProcedure[]): boolean {
  if (subject?.kind === 'hazard') return versions.some(({ hazards }) => hazards.includes(subject.id));
  return about === 'phone';
}

/** Parts that no card prints. */
const beside: ReadonlySet<string> = new Set(['job', 'note', 'reviewed', 'source', 'summary', 'verified']);

function standsOnCards({ about, how, subject }: Change): boolean {
  return !beside.has(about) && how !== 'renamed' && subject?.kind !== 'section';
}

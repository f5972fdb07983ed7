// Issued cards against what the book would print now. A card is out of date by what stands on it, never by its revision alone.

import type { Book, FleetUnit, IssuedCard } from '../model/book.js';
import type { CardChange } from '../model/comparison.js';
import type { CompiledBook } from '../model/compiled-book.js';
import { mayBeRig } from '../model/fleet.js';
import type { PrintedCard } from '../model/printed-card.js';
import {
  type ChangedPart,
  type IssueFinding,
  type IssueState,
  outOfDateStates,
  type Reprint,
} from '../model/reprint.js';
import type { Rig } from '../model/resolved.js';
import { readRigLabel, rigLabel } from '../model/rig.js';
import { mergeRigs } from '../model/rig-lists.js';
import type { Words } from '../model/text.js';
import { compareText } from '../text/compare-text.js';
import { groupedDigest } from '../text/sha256.js';
import { compareCards } from './compare-cards.js';
import type { Release } from './release.js';
import { boxesWithout, sharedBox } from './rig-boxes.js';

export interface ReprintInput {
  readonly book: Book;
  /** What would be printed now. */
  readonly cards: readonly PrintedCard[];
  /** Digest of all that stands on such a card if it says that it is for these rigs, as they are written. */
  readonly printedAs: (card: PrintedCard, rigs: readonly string[]) => string;
  /** Of procedures by id, those without a card too. */
  readonly titles: ReadonlyMap<string, Words>;
  /** The oldest first. */
  readonly releases: readonly Release[];
  /** The book as it is, to compare releases with. */
  readonly now: () => CompiledBook;
}

/** What became of every card of the register. */
export function reprintOf(input: ReprintInput): Reprint {
  const { issued } = input.book;
  const around = { ...input, changesOf: changesFrom(input) };
  const cards = issued.map((card, i) => findingOf(card, around, replaces(issued, i)));
  const order = (finding: IssueFinding): number => 2 * states.indexOf(finding.state) + (isGrave(finding) ? 0 : 1);
  const sorted = cards
    .map((finding, i) => ({ finding, i }))
    .sort((a, b) => order(a.finding) - order(b.finding) || a.i - b.i)
    .map(({ finding }) => finding);
  return { cards: sorted, outOfDate: sorted.filter(({ state }) => outOfDateStates.includes(state)).length };
}

const states: readonly IssueState[] = [...outOfDateStates, 'old-revision', 'right', 'replaced'];

function isGrave({ since }: IssueFinding): boolean {
  return since?.changes.some(({ weight }) => weight === 'safety') ?? false;
}

/** Whether the same was issued to the same place later, or on the same day further down. */
function replaces(issued: readonly IssuedCard[], place: number): boolean {
  const card = issued[place];
  return issued.some(
    (other, i) =>
      card !== undefined &&
      i !== place &&
      isSameHolder(card, other) &&
      (other.on.value > card.on.value || (other.on.value === card.on.value && i > place)),
  );
}

function isSameHolder(a: IssuedCard, b: IssuedCard): boolean {
  const holder = ({ procedure, language, unit, place, rigs }: IssuedCard): string =>
    JSON.stringify([procedure.value, language.value, unit?.value, place?.value, [...rigs.map(machineOf)].sort()]);
  return holder(a) === holder(b);
}

/** Machine and header of a rig as it is written. */
function machineOf({ value }: { readonly value: string }): string {
  return /^[^+~@#]*(?:\+[^+~@#]*)?/.exec(value)?.[0] ?? value;
}

type Around = ReprintInput & { readonly changesOf: (card: IssuedCard) => IssueFinding['since'] };

function findingOf(card: IssuedCard, around: Around, isReplaced: boolean): IssueFinding {
  const { book } = around;
  const procedure = book.procedures.get(card.procedure.value);
  const unit = card.unit && book.fleet.find(({ id }) => id.value === card.unit?.value);
  const title = around.titles.get(card.procedure.value);
  const head = {
    code: card.code.value,
    procedure: card.procedure.value,
    ...(title && { title }),
    revision: card.revision.value,
    ...(procedure && { revisionNow: procedure.revision.value }),
    language: card.language.value,
    rigs: card.rigs.map(({ value }) => value),
    ...(card.unit && { unit: card.unit.value }),
    ...(card.unit && !unit && { unitGone: true as const }),
    ...(card.place && { place: card.place.value }),
    on: card.on.value,
  };
  if (isReplaced) return { ...head, state: 'replaced' };
  if (!procedure) return { ...head, state: 'gone' };
  if (procedure.status.value !== 'released') return { ...head, state: procedure.status.value };
  return { ...head, ...compareNow(card, unit, around) };
}

/** What was printed against the cards that the book has now for its rigs. */
function compareNow(
  card: IssuedCard,
  unit: FleetUnit | undefined,
  { book, cards, printedAs, changesOf }: Around,
): Pick<IssueFinding, 'state' | 'parts' | 'rigsLost' | 'since'> {
  const labels = card.rigs.map(({ value }) => value);
  const boxes = labels.map((label) => readRigLabel(label, book)).filter((rig) => mayBeOf(rig, unit, book));
  const now = cards.filter(
    ({ procedure, language, rigs }) =>
      procedure === card.procedure.value &&
      language === card.language.value &&
      rigs.some((rig) => mayBeOf(rig, unit, book) && boxes.some((box) => sharedBox(box, rig))),
  );
  const left = boxesWithout(
    boxes,
    now.flatMap(({ rigs }) => rigs),
    book,
  ).filter((rig) => mayBeOf(rig, unit, book));
  const rigsLost = mergeRigs(book, left).map(rigLabel);
  if (now.length === 0) return { state: 'not-for-it', ...(rigsLost.length > 0 && { rigsLost }) };
  const parts: readonly ChangedPart[] = [
    ...(now.some((one) => printedAs(one, labels) !== card.printed.value) ? (['text'] as const) : []),
    ...(now.some(({ code, alsoCodes }) => ![code, ...alsoCodes].includes(card.code.value)) ? (['code'] as const) : []),
    ...(rigsLost.length > 0 ? (['rigs'] as const) : []),
  ];
  if (parts.length > 0) {
    const since = changesOf(card);
    return { state: 'changed', parts, ...(rigsLost.length > 0 && { rigsLost }), ...(since && { since }) };
  }
  return { state: now.every(({ revision }) => revision === card.revision.value) ? 'right' : 'old-revision' };
}

/** Whether a unit may be such a rig; any may where none is known. */
function mayBeOf(rig: Rig, unit: FleetUnit | undefined, book: Book): boolean {
  const machine = unit && book.machines.get(unit.machine.value);
  return !unit || (machine !== undefined && mayBeRig(rig, { unit, machine }));
}

/**
 * What changed for a card since a release that has it as it was printed: the last such one up to the day it was issued, else
 * the first after. Each release is compared once.
 */
function changesFrom({ releases, now }: ReprintInput): (card: IssuedCard) => IssueFinding['since'] {
  const compared = new Map<Release, ReadonlyMap<string, CardChange>>();
  let compiled: CompiledBook | undefined;
  const changesIn = (release: Release): ReadonlyMap<string, CardChange> => {
    compiled ??= now();
    const found = compared.get(release) ?? compareCards(release, compiled);
    compared.set(release, found);
    return found;
  };
  return (card) => {
    const having = releases
      .filter((release) => hasCard(release, card))
      .sort((a, b) => compareText(a.date, b.date) || releases.indexOf(a) - releases.indexOf(b));
    const release = having.findLast(({ date }) => date <= card.on.value) ?? having[0];
    const change = release && changesIn(release).get(card.code.value);
    return release && change && { release: release.name, date: release.date, changes: change.changes };
  };
}

function hasCard(release: Release, { code, content }: IssuedCard): boolean {
  return holdsCard(release, { code: code.value, content: content.value });
}

/** Whether a release holds a card with this content, so that it can say what changed since. */
export function holdsCard({ book }: Release, { code, content }: Pick<PrintedCard, 'code' | 'content'>): boolean {
  return book.variants.some(
    ({ hash, cards }) => groupedDigest(hash) === content && cards.some((card) => card.code === code),
  );
}

// `stepgauge cards`: check, then the cards alone, for all or for one machine, unit or procedure; issued, they are entered in
// the register.

import { nearestNames } from '../diagnostic/nearest.js';
import { type Card, cardsOf } from '../emit/cards/card-list.js';
import { emitCards } from '../emit/cards/cards.js';
import { printedAs, printedCards } from '../emit/cards/printed-cards.js';
import { holdsCard } from '../history/reprint.js';
import { writeFolder } from '../io.js';
import { mayBeRig } from '../model/fleet.js';
import type { Rig } from '../model/resolved.js';
import { rigLabel } from '../model/rig.js';
import { prepareIssue, registerFile } from './issue.js';
import { type Loaded, loadBook, report } from './load.js';
import { Misuse } from './misuse.js';
import { releasesOf } from './open-release.js';
import { type CheckOptions, todayOf } from './options.js';
import type { Terminal } from './terminal.js';

export interface CardsOptions extends CheckOptions {
  readonly out: string;
  readonly machine?: string;
  readonly unit?: string;
  readonly procedure?: string;
  readonly language?: string;
  /** To whom or where they go; they are then entered in the register. */
  readonly issue?: string;
}

/** Gives the exit code: 0 written, 1 errors found and nothing written. */
export function runCards(book: string | undefined, options: CardsOptions, terminal: Terminal): number {
  const loaded = loadBook(book, options);
  report(loaded, options, terminal);
  if (!loaded.holds) {
    terminal.err('No cards were made.\n');
    return 1;
  }
  const { resolved, proofs } = loaded.checked;
  if (!resolved) throw new Error('A book that holds was not worked out');
  const isWanted = wantedCards(loaded, options);
  const issue = options.issue === undefined ? undefined : prepare(loaded, options, isWanted);
  const files = emitCards(resolved, { proofs, fonts: loaded.fonts }, isWanted);
  if (files.size === 0) throw new Misuse('No procedure of the book applies to that choice: no cards were made');
  writeFolder(options.out, new Map([...files].map(([path, bytes]) => [path.replace(/^cards\//, ''), bytes])));
  terminal.err(`${counted(files.size)} in ${options.out}\n`);
  if (issue) {
    issue.write();
    terminal.err(`${counted(issue.count)} entered in ${registerFile} as issued to ${options.issue?.trim()}\n`);
    if (issue.unreleased > 0) {
      terminal.err(
        `${issue.unreleased} of them in no release: \`stepgauge release\` keeps what they say, so that \`reprint\` can tell what changed\n`,
      );
    }
  }
  return 0;
}

function counted(count: number): string {
  return `${count} ${count === 1 ? 'card is' : 'cards are'}`;
}

/** The cards that are printed, as they will stand in the register. */
function prepare(
  loaded: Loaded,
  options: CardsOptions,
  isWanted: (card: Card) => boolean,
): { readonly write: () => void; readonly count: number; readonly unreleased: number } {
  const { resolved, proofs } = loaded.checked;
  if (!resolved) throw new Error('A book that holds was not worked out');
  const place = options.issue?.trim() ?? '';
  if (place === '') throw new Misuse('Say behind `--issue` whom the cards are for, or where they go');
  const wanted = new Set(
    cardsOf(resolved)
      .filter(isWanted)
      .map(({ code, language }) => `${code} ${language}`),
  );
  const cards = printedCards(resolved, proofs).filter(({ code, language }) => wanted.has(`${code} ${language}`));
  const draft = cards.find((card) => card.draft);
  if (draft) {
    throw new Misuse(
      `\`${draft.procedure}\` is a draft, and its card is not issued: release it, or choose others with \`--procedure\``,
    );
  }
  const entries = cards.map((card) => {
    const rigs = card.rigs.map(rigLabel);
    const unit = options.unit === undefined ? {} : { unit: options.unit };
    return { ...card, rigs, printed: printedAs(resolved, card, rigs), place, ...unit, on: todayOf(options.today) };
  });
  const releases = releasesOf(loaded.folder);
  const unreleased = cards.filter((card) => !releases.some((release) => holdsCard(release, card))).length;
  return { write: prepareIssue(loaded, entries), count: entries.length, unreleased };
}

function wantedCards(loaded: Loaded, { machine, unit, procedure, language }: CardsOptions): (card: Card) => boolean {
  const book = loaded.checked.resolved?.book;
  if (machine !== undefined && !book?.machines.has(machine)) {
    throw new Misuse(unknown('machine', machine, [...(book?.machines.keys() ?? [])]));
  }
  if (procedure !== undefined && !book?.procedures.has(procedure)) {
    throw new Misuse(unknown('procedure', procedure, [...(book?.procedures.keys() ?? [])]));
  }
  if (language !== undefined && !book?.settings.languages.includes(language)) {
    throw new Misuse(unknown('language', language, book?.settings.languages ?? []));
  }
  const fits = rigsOfUnit(loaded, unit);
  return (card) =>
    (language === undefined || card.language === language) &&
    (machine === undefined || card.machine === machine) &&
    (procedure === undefined || card.variant.procedure.id === procedure) &&
    card.variant.rigs.some((rig) => rig.machine === card.machine && fits(rig));
}

/** Which rigs a customer's unit may be; all where none is asked for. */
function rigsOfUnit({ checked: { resolved } }: Loaded, unit: string | undefined): (rig: Rig) => boolean {
  const book = resolved?.book;
  if (unit === undefined) return () => true;
  const found = book?.fleet.find(({ id }) => id.value === unit);
  if (!found) throw new Misuse(unknown('unit', unit, book?.fleet.map(({ id }) => id.value) ?? []));
  const machine = book?.machines.get(found.machine.value);
  return (rig) => machine !== undefined && mayBeRig(rig, { unit: found, machine });
}

function unknown(kind: string, name: string, known: readonly string[]): string {
  const near = nearestNames(name, known);
  const guess = near.length > 0 ? `; did you mean ${near.map((one) => `\`${one}\``).join(' or ')}?` : '';
  return `The book has no ${kind} \`${name}\`${guess}`;
}

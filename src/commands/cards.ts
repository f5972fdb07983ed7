// `stepgauge cards`: check, then the cards alone, for all or for one machine or one customer's unit.

import { nearestNames } from '../diagnostic/nearest.js';
import { type Card, emitCards } from '../emit/cards/cards.js';
import { writeFolder } from '../io.js';
import { mayBeRig } from '../model/fleet.js';
import { type Loaded, loadBook, report } from './load.js';
import { Misuse } from './misuse.js';
import type { CheckOptions } from './options.js';
import type { Terminal } from './terminal.js';

export interface CardsOptions extends CheckOptions {
  readonly out: string;
  readonly machine?: string;
  readonly unit?: string;
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
  const wanted = wantedCards(loaded, options);
  const files = emitCards(resolved, { proofs, fonts: loaded.fonts }, wanted);
  if (files.size === 0) throw new Misuse('No procedure of the book applies to that choice: no cards were made');
  writeFolder(options.out, new Map([...files].map(([path, bytes]) => [path.replace(/^cards\//, ''), bytes])));
  terminal.err(`${files.size} ${files.size === 1 ? 'card is' : 'cards are'} in ${options.out}\n`);
  return 0;
}

function wantedCards({ checked: { resolved } }: Loaded, { machine, unit }: CardsOptions): (card: Card) => boolean {
  const book = resolved?.book;
  if (machine !== undefined && !book?.machines.has(machine)) {
    throw new Misuse(unknown('machine', machine, [...(book?.machines.keys() ?? [])]));
  }
  const found = book?.fleet.find(({ id }) => id.value === unit);
  if (unit !== undefined && !found)
    throw new Misuse(unknown('unit', unit, book?.fleet.map(({ id }) => id.value) ?? []));
  const owner = found && book?.machines.get(found.machine.value);
  const isTheirs = (card: Card): boolean =>
    !found ||
    !owner ||
    (card.machine === owner.id && card.variant.rigs.some((rig) => mayBeRig(rig, { unit: found, machine: owner })));
  return (card) => (machine === undefined || card.machine === machine) && isTheirs(card);
}

function unknown(kind: string, name: string, known: readonly string[]): string {
  const near = nearestNames(name, known);
  const guess = near.length > 0 ? `; did you mean ${near.map((one) => `\`${one}\``).join(' or ')}?` : '';
  return `The book has no ${kind} \`${name}\`${guess}`;
}

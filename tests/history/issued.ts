// Books in which cards were issued, and which were edited since.

import { reprintBook } from '../../src/build.js';
import { printedAs, printedCards } from '../../src/emit/cards/printed-cards.js';
import { addIssued, type NewIssue } from '../../src/history/issued-text.js';
import type { Release } from '../../src/history/release.js';
import type { PrintedCard } from '../../src/model/printed-card.js';
import type { Reprint } from '../../src/model/reprint.js';
import { rigLabel } from '../../src/model/rig.js';
import { bookOf, filesOfBook } from '../emit-pages/books.js';
import { type Edit, edited } from './books.js';

const { texts: baseTexts, figures } = filesOfBook('tests/books/base');

export const fleet: Edit = [
  'fleet.yaml',
  '',
  'units:\n  - { id: unit-17, customer: Aldous Farm, machine: tarn-40, serial: 70-00317, options: none, headers: [row-12x20] }\n',
];

/** The texts of the base book, edited: from nothing to some is a new file, to nothing takes it away. */
export function withEdits(texts: ReadonlyMap<string, string>, edits: readonly Edit[]): ReadonlyMap<string, string> {
  const changed = new Map(texts);
  for (const [file, from, to] of edits) {
    const text = changed.get(file) ?? '';
    if (from !== '' && !text.includes(from)) throw new Error(`${file} has no ${from}`);
    if (from === '' && to === '') changed.delete(file);
    else changed.set(file, from === '' ? to : text.replace(from, to));
  }
  return changed;
}

/** What is said of an issue besides its card. */
export type Issue = Partial<Pick<NewIssue, 'unit' | 'place' | 'on'>> & { readonly of?: (card: PrintedCard) => boolean };

/** The texts with cards entered as issued. */
export function issuedIn(
  texts: ReadonlyMap<string, string>,
  { of = () => true, ...rest }: Issue = {},
): ReadonlyMap<string, string> {
  const { resolved, proofs } = bookOf(texts, { figures, pass: ['unknown-figure'] });
  const entries = printedCards(resolved, proofs)
    .filter(of)
    .map((card) => {
      const rigs = card.rigs.map(rigLabel);
      return { place: 'Shop wall', on: '2026-09-10', ...card, ...rest, rigs, printed: printedAs(resolved, card, rigs) };
    });
  const text = texts.get('issued.yaml');
  const register = {
    issued: resolved.book.issued,
    bookText: texts.get('book.yaml') ?? '',
    ...(text !== undefined && { text }),
  };
  const after = addIssued(register, entries);
  if (after === undefined) throw new Error('No card can be entered');
  return new Map(texts).set('issued.yaml', after);
}

/** The base book with the cards of tarn-40 issued, then edited. */
export function afterIssue(
  before: readonly Edit[],
  edits: readonly Edit[],
  issue: Issue = {},
): ReadonlyMap<string, string> {
  const of = ({ machine }: PrintedCard): boolean => machine === 'tarn-40';
  return withEdits(issuedIn(withEdits(baseTexts, before), { of, ...issue }), edits);
}

/** What became of the cards in these texts. */
export function reprintIn(texts: ReadonlyMap<string, string>, releases: readonly Release[] = []): Reprint {
  const { resolved, proofs } = bookOf(texts, { figures, pass: ['unknown-figure'] });
  return reprintBook({ resolved, proofs, figures, releases });
}

/** A release of the base book, edited. */
export function release(name: string, date: string, edits: readonly Edit[] = []): Release {
  return { name, date, sources: '', book: edited(edits) };
}

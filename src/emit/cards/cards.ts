// The cards of a book as PDFs.

import type { ResolvedBook } from '../../model/resolved.js';
import type { OrderResult } from '../../order/result.js';
import { type Card, cardsOf } from './card-list.js';
import { drawCard } from './draw.js';
import type { CardFonts } from './fonts.js';
import { layOutCards } from './lay-out-cards.js';

export interface CardsInput {
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly fonts: CardFonts;
}

/** The PDFs by path. Throws where one does not fit: `cardFaults` has said so before. */
export function emitCards(
  resolved: ResolvedBook,
  { proofs, fonts }: CardsInput,
  wanted: (card: Card) => boolean = () => true,
): ReadonlyMap<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  for (const { card, content, layout } of layOutCards(resolved, { proofs, fonts }, cardsOf(resolved).filter(wanted))) {
    if (layout.faults.length > 0) throw new Error(`The card ${card.path} does not fit`);
    files.set(card.path, drawCard(content, layout, fonts));
  }
  return files;
}

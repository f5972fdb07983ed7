// From a checked book to every file of the output. Pure; the bytes of the browser's part are handed in.

import { cardFonts, emitCards } from './emit/cards/cards.js';
import { emitSite } from './emit/pages/site.js';
import type { ResolvedBook } from './model/resolved.js';
import type { OrderResult } from './order/result.js';

export interface BuildInput {
  readonly resolved: ResolvedBook;
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly figures: ReadonlyMap<string, Uint8Array>;
  /** What runs or shows in the browser: scripts, styles, fonts, by path. */
  readonly assets: ReadonlyMap<string, Uint8Array>;
}

/** The site, its search, the cards and the open book, by path. */
export function buildBook(input: BuildInput): ReadonlyMap<string, string | Uint8Array> {
  const site = emitSite(input.resolved, { proofs: input.proofs, figures: input.figures, assets: input.assets });
  const cards = emitCards(input.resolved, { proofs: input.proofs, fonts: cardFonts(input.assets) });
  return new Map([...site, ...cards].sort(([a], [b]) => (a < b ? -1 : 1)));
}

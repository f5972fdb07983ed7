// Cards laid out one after the other, by the measures of their faces or by wider ones.

import type { ResolvedBook, Variant } from '../../model/resolved.js';
import type { OrderResult } from '../../order/result.js';
import type { Card } from './card-list.js';
import { bodyOf, type CardContent } from './content.js';
import { type Layout, layOut, type MeasuredBody, measureBody } from './layout.js';
import { rigWords } from './rig-words.js';
import type { Measures } from './text.js';

export interface LayoutInput {
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly fonts: Measures;
}

export interface LaidOut {
  readonly card: Card;
  readonly content: CardContent;
  readonly layout: Layout;
}

/** Lays cards out one after the other. What the cards of a variant share is gathered and measured once for all its machines. */
export function* layOutCards(
  resolved: ResolvedBook,
  { proofs, fonts }: LayoutInput,
  cards: readonly Card[],
): Generator<LaidOut> {
  let bodies = new Map<string, MeasuredBody>();
  let last: Variant | undefined;
  for (const card of cards) {
    const { variant, language, code, url } = card;
    if (variant !== last) [bodies, last] = [new Map(), variant];
    const proof = proofs.get(variant.id);
    const measured =
      bodies.get(language) ?? measureBody(bodyOf(resolved, { variant, language, ...(proof ? { proof } : {}) }), fonts);
    bodies.set(language, measured);
    const content = { ...measured.body, rig: rigWords(resolved, card), code, url };
    yield { card, content, layout: layOut(content, measured, fonts) };
  }
}

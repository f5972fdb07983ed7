// Which cards a book has: one for each machine and variant of a procedure, in each language it is written in.

import type { ResolvedBook, Variant } from '../../model/resolved.js';
import { cardCodes } from './card-codes.js';
import { speaks } from './words.js';

/** One card to make. */
export interface Card {
  readonly variant: Variant;
  readonly machine: string;
  readonly language: string;
  /** What a person reads out, and what the printed code leads to. */
  readonly code: string;
  /** Those that are printed on it when one of its other headers comes first: a card that was printed before the book got another header. */
  readonly alsoCodes: readonly string[];
  /** `cards/tarn-40/learn-height-range.pdf`. */
  readonly path: string;
  readonly url: string;
}

/** Every card of a book. A withdrawn procedure has none. */
export function cardsOf(resolved: ResolvedBook): readonly Card[] {
  const base = resolved.book.settings.url.value.replace(/\/*$/, '/');
  return cardCodes(resolved).printed.flatMap(({ variant, machine, codes }) => {
    const [code = '', ...alsoCodes] = codes;
    return languagesOf(resolved, variant).map((language, i) => ({
      variant,
      machine,
      language,
      code,
      alsoCodes,
      path: `cards/${i === 0 ? '' : `${language}/`}${machine}/${variant.id}.pdf`,
      url: `${base}c/${code.toLowerCase()}/#${variant.procedure.revision}`,
    }));
  });
}

function languagesOf({ book }: ResolvedBook, { procedure }: Variant): readonly string[] {
  const [first = 'en', ...others] = book.settings.languages;
  return [first, ...others.filter((language) => speaks(language) && procedure.source.translations.has(language))];
}

// A worked-out book to its cards: one PDF for each machine and variant of a procedure, in each language it is written in.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { ResolvedBook, Variant } from '../../model/resolved.js';
import type { OrderResult } from '../../order/result.js';
import { type Keep, keepNothing } from '../../text/keep.js';
import type { Span } from '../../text/source.js';
import { cardCodes } from './card-codes.js';
import { bodyOf, type CardContent } from './content.js';
import { drawCard } from './draw.js';
import { type PrintedIn, placeOfBlock, placeOfText } from './fault-places.js';
import { type CardFonts, openFonts } from './fonts.js';
import { type Layout, type LayoutFault, layOut, type MeasuredBody, measureBody } from './layout.js';
import { codeFault } from './printed-code.js';
import { rigWords } from './rig-words.js';
import { speaks } from './words.js';

export interface CardsInput {
  readonly proofs: ReadonlyMap<string, OrderResult>;
  readonly fonts: CardFonts;
}

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

/** The faces of the cards, from the files that come with the program. */
export function cardFonts(files: ReadonlyMap<string, Uint8Array>): CardFonts {
  const face = (weight: number): Uint8Array => {
    const found = [...files].find(([path]) => path.endsWith(`-${weight}-normal.ttf`));
    if (!found) throw new Error(`The face of weight ${weight} did not come with the program`);
    return found[1];
  };
  return openFonts(face(400), face(700));
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

interface LaidOut {
  readonly card: Card;
  readonly content: CardContent;
  readonly layout: Layout;
}

/** Lays cards out one after the other. What the cards of a variant share is gathered and measured once for all its machines. */
function* layOutCards(
  resolved: ResolvedBook,
  { proofs, fonts }: CardsInput,
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

/**
 * What does not fit a card, a code that cannot be read, and signs that cannot be printed: an error each, at the procedure. With `keep`, cards are not set
 * again while their variant, its proof and the shared files are the same as before.
 */
export function cardFaults(resolved: ResolvedBook, input: CardsInput, keep: Keep = keepNothing): readonly Diagnostic[] {
  const { procedures: _, figures: _figures, unread: _unread, issued: _issued, ...shared } = resolved.book;
  const around = [input.fonts, resolved.rigs, ...Object.values(shared)];
  const byVariant = new Map<Variant, Card[]>();
  const all = cardsOf(resolved);
  for (const card of all) {
    const cards = byVariant.get(card.variant);
    if (cards) cards.push(card);
    else byVariant.set(card.variant, [card]);
  }
  const urls = all.map(({ url }) => url);
  const { url: site } = resolved.book.settings;
  const ofCode = keep('printed code', [site, urls.join(' ')], () => codeFault(urls, site));
  const ofCards = [...byVariant].flatMap(([variant, cards]) => {
    const codes = cards.map(({ code }) => code).join(' ');
    const parts = [variant, input.proofs.get(variant.id), codes, ...around];
    return keep(`card faults ${variant.id}`, parts, () => faultsOf(resolved, input, cards));
  });
  return [...ofCode, ...ofCards];
}

function faultsOf(
  resolved: ResolvedBook,
  { proofs, fonts }: CardsInput,
  cards: readonly Card[],
): readonly Diagnostic[] {
  const found = new Map<string, Diagnostic>();
  for (const { card, content, layout } of layOutCards(resolved, { proofs, fonts }, cards)) {
    const printed = { book: resolved.book, variant: card.variant, language: card.language };
    for (const fault of layout.faults) {
      const at = placeOfFault(printed, fault);
      const diagnostic = diagnose({ code: 'card-overflow', severity: 'error', at, ...faultWords(fault) });
      found.set(`${at.file} ${diagnostic.message}`, diagnostic);
    }
    const lacking = fonts.lacking(textOf(content));
    if (lacking.length > 0) {
      const signs = lacking.map(
        (sign) => `\`${sign}\` (U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')})`,
      );
      const at = placeOfText(printed, lacking[0] ?? '');
      const diagnostic = diagnose({
        code: 'sign-not-printable',
        severity: 'error',
        at,
        message: `The card cannot print ${signs.join(', ')}: its face has no such sign`,
        help: 'Say it in words: `at least` for a sign of comparison, `ohm` for the Greek letter.',
        note: 'A sign that is missing on paper would leave a gap in a sentence or a number.',
      });
      found.set(`${at.file} ${diagnostic.message}`, diagnostic);
    }
  }
  return [...found.values()];
}

function placeOfFault(card: PrintedIn, fault: LayoutFault): Span {
  if (fault.kind === 'title-too-long') return placeOfBlock(card, 'title');
  return fault.kind === 'too-wide' ? placeOfText(card, fault.word) : placeOfBlock(card, fault.name);
}

function faultWords(fault: LayoutFault): { message: string; help: string } {
  const millimetres = (points: number): string => `${Math.ceil((points * 25.4) / 72)}\u00a0mm`;
  switch (fault.kind) {
    case 'too-tall':
      return {
        message: `On the card ${fault.name} is ${millimetres(fault.over)} too tall for one side`,
        help: 'Shorten its text with `card:`, or cut the step in two.',
      };
    case 'too-wide':
      return {
        message: `On the card \`${fault.word}\` in ${fault.name} is wider than its column`,
        help: 'Put a blank into it, or say it in shorter words.',
      };
    case 'title-too-long':
      return { message: `On the card the title takes ${millimetres(fault.over)} too much`, help: 'Shorten the title.' };
  }
}

function textOf(content: CardContent): string {
  return JSON.stringify([content.title, content.rig, content.blocks, content.hazards, content.issue]);
}

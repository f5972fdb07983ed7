// Whether the cards of a book can be printed: whether all fits, the code can be read, and the faces have every sign.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { ResolvedBook, Variant } from '../../model/resolved.js';
import { type Keep, keepNothing } from '../../text/keep.js';
import type { Span } from '../../text/source.js';
import { type Card, cardsOf } from './card-list.js';
import type { CardContent } from './content.js';
import { type PrintedIn, placeOfBlock, placeOfText } from './fault-places.js';
import { type LaidOut, type LayoutInput, layOutCards } from './lay-out-cards.js';
import type { LayoutFault } from './layout.js';
import { codeFault } from './printed-code.js';
import type { Measures } from './text.js';
import { lacking, widest } from './widest.js';

/**
 * What does not fit a card, a code that cannot be read, and signs that cannot be printed: an error each, at the procedure. With `keep`, cards are not set
 * again while their variant, its proof and the shared files are the same as before.
 */
export function cardFaults(
  resolved: ResolvedBook,
  input: LayoutInput,
  keep: Keep = keepNothing,
): readonly Diagnostic[] {
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
  { proofs, fonts }: LayoutInput,
  cards: readonly Card[],
): readonly Diagnostic[] {
  const found = new Map<string, Diagnostic>();
  const laidOut = (measures: Measures): readonly LaidOut[] => [
    ...layOutCards(resolved, { proofs, fonts: measures }, cards),
  ];
  const widely = laidOut(widest);
  const fits = widely.every(({ layout }) => layout.faults.length === 0);
  for (const { card, content, layout } of fits ? widely : laidOut(fonts)) {
    const printed = { book: resolved.book, variant: card.variant, language: card.language };
    for (const fault of layout.faults) {
      const at = placeOfFault(printed, fault);
      const diagnostic = diagnose({ code: 'card-overflow', severity: 'error', at, ...faultWords(fault) });
      found.set(`${at.file} ${diagnostic.message}`, diagnostic);
    }
    const missing = lacking(textOf(content));
    if (missing.length > 0) {
      const signs = missing.map(
        (sign) => `\`${sign}\` (U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')})`,
      );
      const at = placeOfText(printed, missing[0] ?? '');
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

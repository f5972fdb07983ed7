// Where in the book what does not fit a card is written. Rather the title than a wrong place.

import type { Book } from '../../model/book.js';
import type { Variant } from '../../model/resolved.js';
import { leavesOf, templatesOf, textsOf } from '../../model/walk.js';
import type { SourceText, Span } from '../../text/source.js';
import { spanWithin } from '../../text/source.js';
import { stepLabel } from '../step-label.js';

/** A card of a variant, in one of its languages. */
export interface PrintedIn {
  readonly book: Book;
  readonly variant: Variant;
  readonly language: string;
}

/** The first place where a word or a sign is written in what the card prints; its title where it stands nowhere. */
export function placeOfText(card: PrintedIn, word: string): Span {
  for (const source of textsFor(card)) {
    const at = source.value.indexOf(word);
    if (at >= 0) return spanWithin(source, at, at + word.length);
  }
  return titleOf(card);
}

/** What a block of the card is made of: the words of `step 10`, of `caution moving-header`. */
export function placeOfBlock(card: PrintedIn, name: string): Span {
  const { book, variant, language } = card;
  const [kind, id = ''] = name.split(' ');
  const step = kind === 'step' ? variant.procedure.steps.find((one) => stepLabel(one) === id)?.source : undefined;
  const text = step ? (step.card ?? step.do ?? step.ask) : kind === 'caution' ? book.hazards.get(id)?.what : undefined;
  const [words] = templatesOf(text, language);
  return words?.source.at ?? step?.id.at ?? titleOf(card);
}

function titleOf({ variant, language }: PrintedIn): Span {
  const { title } = variant.procedure.source;
  const [words] = templatesOf(title, language);
  return words?.source.at ?? title.at;
}

/** The texts that may stand on the card: of the procedure, of its hazards, of its machines and of what it reads. */
function* textsFor({ book, variant, language }: PrintedIn): Iterable<SourceText> {
  const { source, hazards } = variant.procedure;
  const texts = [
    ...textsOf(source).map(({ text }) => text),
    ...hazards.flatMap((id) => {
      const hazard = book.hazards.get(id);
      return hazard ? [hazard.what, hazard.harm, hazard.avoid] : [];
    }),
    ...[...book.states.values()].map(({ label }) => label),
    ...[...book.instruments.values(), ...book.tools.values()].map(({ label }) => label),
    ...[...book.machines.values()].flatMap(({ name, words }) => [
      name,
      ...[...words.values()].flatMap(({ text }) => [...leavesOf(text)]),
    ]),
    ...[...book.headers.values()].map(({ name }) => name),
  ];
  for (const text of texts) for (const { source: words } of templatesOf(text, language)) yield words;
}

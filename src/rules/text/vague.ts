// Finds vague words in what is read beside the machine. Shared by the rules on words that decide nothing and on missing measures.

import type { Book } from '../../model/book.js';
import { type Span, spanWithin } from '../../text/source.js';
import type { Language, VagueWord } from './languages/language.js';
import { languageOf } from './languages/languages.js';
import { type Passage, passagesOf, type Role } from './passages.js';

/** What is read while the work is done. */
const atWork: ReadonlySet<Role> = new Set(['step', 'question', 'card', 'expectation', 'condition', 'avoid']);

/** Each vague word of these texts, and what to write in its place. */
export function* findVague(
  book: Book,
  listOf: (language: Language) => readonly VagueWord[],
): Iterable<{ readonly at: Span; readonly data: { readonly word: string; readonly instead: string } }> {
  for (const passage of passagesOf(book)) {
    const words = atWork.has(passage.role) ? languageOf(passage.language) : undefined;
    if (!words) continue;
    for (const { words: pattern, instead } of listOf(words)) yield* placesOf(passage, pattern, instead);
  }
}

function* placesOf(
  { hidden, source }: Passage,
  pattern: RegExp,
  instead: string,
): Iterable<{ readonly at: Span; readonly data: { readonly word: string; readonly instead: string } }> {
  for (const { index, 0: word } of hidden.matchAll(pattern)) {
    yield { at: spanWithin(source, index, index + word.length), data: { word, instead } };
  }
}

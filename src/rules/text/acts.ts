// What a sentence orders: the orders in it, found by the lists of its language. A guess that would rather miss an order than
// take a thing for one.

import type { Language } from './languages/language.js';
import { nameSign } from './names.js';
import type { Sentence, Word } from './sentences.js';

/** Where the main part of a sentence begins: behind `If the lamp is lit,`; the index of a word. Behind its end: nowhere. */
export function mainStart(hidden: string, { words }: Sentence, language: Language): number {
  let start = 0;
  if (language.conditions.has(language.bare(words[0]?.text ?? ''))) {
    const comma = words.findIndex((word, i) => hasComma(hidden, word, words[i + 1]));
    if (comma < 0) return words.length;
    start = comma + 1;
  }
  while (start < words.length && isAdverb(words[start], language)) start += 1;
  return start;
}

/** The words that order something to be done, the first first; companions such as `keep` only as the first. */
export function actsOf(hidden: string, sentence: Sentence, language: Language): readonly Word[] {
  const { words } = sentence;
  const start = mainStart(hidden, sentence, language);
  const first = words[start];
  if (!first || isTeller(first, language) || isNegated(words, start, language)) return [];
  const acts = isOrder(words, start, language) ? [first] : [];
  if (acts.length === 0) return [];
  for (let i = start + 1; i < words.length; i += 1) {
    if (!startsPart(hidden, words, { at: i, language })) continue;
    const at = pastAdverbs(words, i, language);
    const word = words[at];
    if (!word || isNegated(words, at, language) || !isOrder(words, at, language)) continue;
    const before = words.slice(start, i).map(({ text }) => language.bare(text));
    if (isExcused(word, before, { acts, language })) continue;
    acts.push(word);
    i = at;
  }
  return acts;
}

/** Whether a sentence begins by telling: with `the` or `it`, not with an order. */
export function isTeller(word: Word, language: Language): boolean {
  return language.tellers.has(language.bare(word.text));
}

function hasComma(hidden: string, word: Word, next: Word | undefined): boolean {
  return next !== undefined && /[,:;]/.test(hidden.slice(word.end, next.start));
}

function isAdverb(word: Word | undefined, language: Language): boolean {
  const text = language.bare(word?.text ?? '');
  return language.adverbs.has(text) || /(?:\p{L}{3}ly|mente)$/u.test(text);
}

function pastAdverbs(words: readonly Word[], from: number, language: Language): number {
  let at = from;
  while (at < words.length && isAdverb(words[at], language)) at += 1;
  return at;
}

/** Whether a part begins at a word: it stands behind `and`, a comma or a semicolon. */
function startsPart(
  hidden: string,
  words: readonly Word[],
  { at, language }: { readonly at: number; readonly language: Language },
): boolean {
  const [before, word] = [words[at - 1], words[at]];
  if (!before || !word) return false;
  return language.joiners.has(language.bare(before.text)) || hasComma(hidden, before, word);
}

/** `Do not touch it`, `Turn nothing`: what is not done is no act. */
function isNegated(words: readonly Word[], at: number, language: Language): boolean {
  const [text, next] = [language.bare(words[at]?.text ?? ''), language.bare(words[at + 1]?.text ?? '')];
  if (text === 'do' && next === 'not') return true;
  return language.negations.has(text) || language.negations.has(next);
}

function isOrder(words: readonly Word[], at: number, language: Language): boolean {
  const text = language.bare(words[at]?.text ?? '');
  if (language.orders.has(text) || language.companions.has(text)) return true;
  if (!language.orderOrThing.has(text)) return false;
  if (at === 0) return true;
  const next = words[at + 1];
  const ahead = next && language.particles.has(language.bare(next.text)) ? words[at + 2] : next;
  return ahead !== undefined && (ahead.text.startsWith(nameSign) || language.objects.has(language.bare(ahead.text)));
}

/** Whether an order that follows others is no act of its own. */
function isExcused(
  word: Word,
  before: readonly string[],
  { acts, language }: { readonly acts: readonly Word[]; readonly language: Language },
): boolean {
  const text = language.bare(word.text);
  const first = language.bare(acts.at(-1)?.text ?? '');
  if (language.companions.has(text)) return true;
  if (language.oneMovement.get(first)?.has(text)) return true;
  // in `until the points rest and`, and in `to clean and`, the next verb goes on
  const part = before.slice(1);
  if (part.some((one, i) => language.purposes.has(one) && isVerb(part[i + 1] ?? '', language))) return true;
  return part.some((one) => language.subordinators.has(one)) && !language.ordersToPeople.has(text);
}

function isVerb(word: string, language: Language): boolean {
  return language.orders.has(word) || language.orderOrThing.has(word);
}

// The words of a sentence as what they name: small, without accents, endings and filling words. Judges nothing.

import type { NumberLanguage } from './languages/language.js';

/** What a text names, words such as `wide` as those that names have: `width`. */
export function namedIn(text: string, language: NumberLanguage): ReadonlySet<string> {
  return stemsOf(text, language, (word) => language.sameAs.get(word) ?? word);
}

/** What a text names with the words that stand there. */
export function nounsIn(text: string, language: NumberLanguage): ReadonlySet<string> {
  return stemsOf(text, language, (word) => word);
}

function stemsOf(text: string, { filling }: NumberLanguage, as: (word: string) => string): ReadonlySet<string> {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  const words = plain.match(/\p{L}{2,}/gu) ?? [];
  return new Set(words.filter((word) => !filling.has(word)).map((word) => stem(as(word))));
}

function stem(word: string): string {
  return word.length > 3 ? word.replace(/(?:es|s|e)$/, '') : word;
}

/** The thing itself in a name: `travel` in *Travel of the sensors* and in *Sensor travel*. */
export function headOf(name: string, language: NumberLanguage): string | undefined {
  const words = (name.split(/[,:;(]/)[0] ?? '').split(/\s+/);
  const end = words.findIndex((word, i) => i > 0 && language.ofWords.includes(word.toLowerCase()));
  return [...namedIn(words.slice(0, end < 0 ? words.length : end).join(' '), language)].at(-1);
}

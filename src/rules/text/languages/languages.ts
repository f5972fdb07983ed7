// The languages that the rules on language know, by their codes.

import { english } from './english.js';
import type { Language } from './language.js';
import { spanish } from './spanish.js';

const languages: ReadonlyMap<string, Language> = new Map([
  ['en', english],
  ['es', spanish],
]);

/** The word lists of a language, also of `es-MX`; undefined for one that has none. */
export function languageOf(code: string): Language | undefined {
  return languages.get(code) ?? languages.get(code.split('-')[0] ?? '');
}

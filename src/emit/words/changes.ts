// The words for what changed between two states of a book, in every language of the interface.

import { english } from './changes-en.js';
import { spanish } from './changes-es.js';

export type ChangeKey = keyof typeof english;

/** Whether there are words for a key. */
export function isChangeKey(key: string): key is ChangeKey {
  return Object.hasOwn(english, key);
}

/** The words for a key. Throws where there are none: what changed is never left without words. */
export function changeWord(
  language: string,
  key: string,
  parts: Readonly<Record<string, string | number>> = {},
): string {
  if (!isChangeKey(key)) throw new Error(`There are no words for \`${key}\` of a change`);
  const raw = (language === 'es' ? spanish : english)[key];
  return raw.replaceAll(/\{(\w+)\}/g, (whole, name: string) => String(parts[name] ?? whole));
}

/** The words by language. */
export const changeTables = { en: english, es: spanish } as const;

// The interface's words by language, and how their places are filled. Texts of the book are not here.

import { escapeHtml, type Html, html, type Part, trusted } from '../html.js';
import { printedUnits } from '../printed-units.js';
import { english, type UiKey } from './en.js';
import { spanish } from './es.js';

export type { UiKey } from './en.js';

const tables: Readonly<Record<string, Readonly<Record<UiKey, string>>>> = { en: english, es: spanish };

/** The languages that the interface is written in. */
export const interfaceLanguages: readonly string[] = Object.keys(tables);

/** Whether the interface has words in that language. */
export function hasInterface(language: string): boolean {
  return interfaceLanguages.includes(language);
}

const place = /\{([a-z]+)\}/g;

/** The interface's word for a key as plain text. A language without a table reads English. */
export function wordFor(language: string, key: UiKey, parts: Readonly<Record<string, string | number>> = {}): string {
  const raw = rawWord(language, key);
  return raw.includes('{') ? raw.replaceAll(place, (_, name: string) => String(partOf(parts, name, key))) : raw;
}

/** The same, with HTML in its places. */
export function markupFor(language: string, key: UiKey, parts: Readonly<Record<string, Part>> = {}): Html {
  const raw = rawWord(language, key);
  let out = '';
  let from = 0;
  for (const found of raw.matchAll(place)) {
    out += escapeHtml(raw.slice(from, found.index)) + html`${partOf(parts, found[1] ?? '', key)}`.html;
    from = found.index + found[0].length;
  }
  return trusted(out + escapeHtml(raw.slice(from)));
}

function rawWord(language: string, key: UiKey): string {
  return (tables[language] ?? english)[key];
}

function partOf<T>(parts: Readonly<Record<string, T>>, name: string, key: UiKey): T {
  const part = parts[name];
  if (part === undefined) throw new Error(`The words \`${key}\` lack their \`${name}\``);
  return part;
}

const months: Readonly<Record<string, readonly string[]>> = {
  en: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  es: ['ene', 'feb', 'mar', 'abr', 'may', 'jun', 'jul', 'ago', 'sep', 'oct', 'nov', 'dic'],
};

/** `2026-09-02` as `2 Sep 2026`, on one line. Anything else stays as it is written. */
export function dateIn(language: string, date: string): string {
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date) ?? [];
  const name = (months[language] ?? months.en)?.[Number(month) - 1];
  return name === undefined ? date : `${Number(day)}\u00a0${name}\u00a0${year}`;
}

/** Limits and quantities as the calculation core writes them, in the words of a language. Digits stay as they are. */
export function numberIn(language: string, shown: string): string {
  const printed = printedUnits(shown);
  if (language !== 'es') return printed;
  return printed
    .replaceAll(/(^|\()at least /g, '$1al menos ')
    .replaceAll(/(^|\()at most /g, '$1como máximo ')
    .replaceAll(/(?<=[\d\u00a0\p{L}%]) to (?=[-\d])/gu, ' a ');
}

/** A language as another calls it: `inglés`; its tag where the interface does not know it. */
export function languageNameIn(language: string, of: string): string {
  return of === 'en' || of === 'es' ? wordFor(language, `name-${of}`) : of;
}

/** A language by its own name; its tag where the interface has no words in it. */
export function languageName(language: string): string {
  return tables[language]?.language ?? language;
}

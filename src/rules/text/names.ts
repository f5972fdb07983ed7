// Hides in a text what is a name and no word of a sentence: placeholders, labels in bold, code, addresses, terms of the book.
// Whatever is hidden keeps its length, so that places stay.

import type { Book } from '../../model/book.js';
import { leavesOf, templatesOf } from '../../model/walk.js';

/** Stands in a hidden text for each letter of a name: a name is one word. */
export const nameSign = '\uFFFC';

const always = [
  /\{\{|\}\}/g,
  /\{[^{}]*\}/g,
  /\*\*(?:[^*]|\*(?!\*))+\*\*|__[^_]+__/g,
  /`[^`]+`/g,
  /(?<=\])\([^()\s]*\)/g,
  /https?:\/\/\S+/g,
];

/** What names there are in each language: its terms, and the words of machines. */
export function namesOf(book: Book): ReadonlyMap<string, RegExp> {
  const screens = [...book.machines.values()].flatMap(({ words }) =>
    [...words.values()].flatMap(({ text }) => [...leavesOf(text)].flatMap((one) => [...templatesOf(one)])),
  );
  return new Map(
    book.settings.languages.map((language) => {
      const terms = book.terms.flatMap((term) => term.use.get(language)?.value ?? []);
      const labels = screens.map(({ source }) => source.value).filter((label) => /\s|^\P{Ll}{2,}$/u.test(label));
      return [language, wholeWords([...terms.map(endings), ...labels.map(literal)])] as const;
    }),
  );
}

/** The text with its names hidden; `names` are those of its language. */
export function hideNames(text: string, names: RegExp | undefined): string {
  let hidden = text;
  for (const pattern of always) hidden = hidden.replace(pattern, (name) => nameSign.repeat(name.length));
  return names ? hidden.replace(names, (name) => nameSign.repeat(name.length)) : hidden;
}

function wholeWords(patterns: readonly string[]): RegExp {
  const longestFirst = [...patterns].sort((a, b) => b.length - a.length);
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${longestFirst.join('|') || '(?!)'})(?![\\p{L}\\p{N}])`, 'gu');
}

/** A term with a capital or without, in the plural or not. */
function endings(term: string): string {
  const [initial = '', ...rest] = [...term];
  const start = `[${literal(initial.toLowerCase())}${literal(initial.toUpperCase())}]`;
  return `${start}${literal(rest.join(''))}(?:e?s)?`;
}

function literal(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/ /g, '\\s+');
}

// How a page speaks: the interface in its language, texts of the book with what is missing in it marked, numbers and dates.

import type { Words } from '../model/text.js';
import { type Html, html, isBlank, type Part, trusted } from './html.js';
import { inlineMarkdown, type Links, plainText } from './markdown.js';
import { printedUnits } from './printed-units.js';
import { dateIn, markupFor, numberIn, type UiKey, wordFor } from './words/interface.js';

export interface Voice {
  readonly language: string;
  /** The language that procedures are written in. */
  readonly first: string;
  /** A word of the interface with HTML in its places. */
  ui(key: UiKey, parts?: Readonly<Record<string, Part>>): Html;
  /** The same as plain text. */
  text(key: UiKey, parts?: Readonly<Record<string, string | number>>): string;
  /** A text of the book, its markdown rendered; in another language than the page it is marked so. */
  say(words: Words | undefined, links?: Links): Html;
  /** The same as plain text. */
  plain(words: Words | undefined): string;
  /** Whether the book has these words in the page's language. */
  has(words: Words): boolean;
  /** Limits or a quantity as they are shown; number and unit stay together. */
  number(shown: string): string;
  date(date: string): string;
}

/** A voice for one language of a book whose first language is `first`. */
export function voiceFor(language: string, first: string): Voice {
  // the same few hundred texts come again and again over the homes of a book
  const rendered = new Map<string, Html>();
  const render = (text: string, links: Links | undefined): Html => {
    if (links) return inlineMarkdown(text, links);
    const known = rendered.get(text);
    if (known) return known;
    const made = inlineMarkdown(text);
    rendered.set(text, made);
    return made;
  };
  const plains = new Map<string, string>();
  const strip = (text: string): string => {
    const known = plains.get(text);
    if (known !== undefined) return known;
    const made = plainText(text);
    plains.set(text, made);
    return made;
  };
  const find = (words: Words): string => printedUnits(words[language] ?? words[first] ?? Object.values(words)[0] ?? '');
  return {
    language,
    first,
    ui: (key, parts) => markupFor(language, key, parts),
    text: (key, parts) => wordFor(language, key, parts),
    say: (words, links) => {
      if (!words) return trusted('');
      const said = render(find(words), links);
      return words[language] !== undefined || isBlank(said) ? said : html`<span lang="${first}">${said}</span>`;
    },
    plain: (words) => (words ? strip(find(words)) : ''),
    has: (words) => words[language] !== undefined,
    number: (shown) => numberIn(language, joined(shown)),
    date: (date) => dateIn(language, date),
  };
}

/** The unit stays on its number's line: the blank between them does not break. */
function joined(shown: string): string {
  return shown.replaceAll(/(?<=\d) (?!to |at |±|\+|-)(?=\S)/g, '\u00a0').replaceAll(/± /g, '±\u00a0');
}

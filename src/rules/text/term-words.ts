// Finds other words for the terms of a book in its passages, and what to write in their place.

import type { Edit } from '../../diagnostic/diagnostic.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { type Span, spanWithin } from '../../text/source.js';
import type { Block } from './blocks.js';
import { isWithin, type Passage } from './passages.js';

/** A word that is not the one to write, and the one to write. */
export interface OtherWord {
  readonly word: string;
  readonly use: string;
  /** Where terms.yaml says so. */
  readonly listedAt: Span;
}

/** A place where such a word was written. */
export interface FoundWord {
  readonly word: string;
  /** The term in the number and with the capital of what was found. */
  readonly use: string;
  readonly at: Span;
  readonly listedAt: Span;
  /** Missing where the plural of the term is not sure. */
  readonly edit?: Edit;
}

/** Words ready to be looked for: whole, whatever their capitals, in the plural too. */
export interface Sought {
  readonly any: Caseless;
  readonly words: readonly (OtherWord & { readonly pattern: Caseless })[];
}

/** Makes words ready to be looked for; of two that overlap the longer one is found: `feeder throat` before `throat`. */
export function seek(words: readonly OtherWord[]): Sought {
  const sorted = [...words].sort((a, b) => b.word.length - a.word.length);
  return {
    any: wholeWord(sorted.map(({ word }) => literal(word)).join('|') || '(?!)'),
    words: sorted.map((one) => ({ ...one, pattern: wholeWord(literal(one.word)) })),
  };
}

/** Each place in a passage where one of the words stands; none within a term, a label or a placeholder. */
export function* findWords(passage: Passage, sought: Sought | undefined): Iterable<FoundWord> {
  const { start, end } = passage.block;
  const text = passage.hidden.slice(start, end);
  if (!sought?.any.test(text)) return;
  const taken: Block[] = [];
  for (const { pattern, ...other } of sought.words) {
    for (const { index, 0: word } of pattern.matchAll(text)) {
      const range = { start: start + index, end: start + index + word.length };
      if (taken.some((one) => isWithin(range, one))) continue;
      taken.push(range);
      yield foundAt(passage, range, other);
    }
  }
}

function foundAt({ source, language }: Passage, { start, end }: Block, { word, use, listedAt }: OtherWord): FoundWord {
  const found = source.value.slice(start, end);
  const isPlural = found.length > word.length;
  const at = spanWithin(source, start, end);
  const text = capitalLike(found, isPlural && language.startsWith('en') ? pluralOf(use) : use);
  const isSure = !isPlural || language.startsWith('en');
  return { word: found, use: text, at, listedAt, ...(isSure ? { edit: { at, text } } : {}) };
}

function pluralOf(term: string): string {
  return /(?:s|x|z|ch|sh)$/.test(term) ? `${term}es` : `${term}s`;
}

function capitalLike(found: string, text: string): string {
  return /^\p{Lu}/u.test(found) ? text.slice(0, 1).toUpperCase() + text.slice(1) : text;
}

function literal(words: string): string {
  return words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/ +/g, '\\s+');
}

function wholeWord(words: string): Caseless {
  return caseless(`(?<![\\p{L}\\p{N}-])(?:${words})(?:e?s)?(?![\\p{L}\\p{N}-])`);
}

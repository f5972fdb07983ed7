// Sentences and words of a passage whose names are hidden. Counting follows ASD-STE100 (from memory): a number with its unit,
// a label, a hyphenated word is one word; what stands in parentheses, and behind a colon, is a sentence of its own.

import { scanUnit } from '../../calc/unit.js';
import type { Block } from './blocks.js';
import { languageOf } from './languages/languages.js';

/** A word of a sentence, with its place in the text. */
export interface Word {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** A sentence with its place in the text. */
export interface Sentence {
  readonly start: number;
  readonly end: number;
  readonly words: readonly Word[];
}

const wordPattern = /[\p{L}\p{N}\uFFFC][\p{L}\p{N}\p{M}\uFFFC'’.,/-]*(?<![.,/-])|[&%±]/gu;
const endPattern = /[.!?…]+["'”’)\]»*_]*(?=\s|$)|\n(?=\s*\n)/g;

/** The sentences of a block, in their order. */
export function sentencesOf(hidden: string, block: Block, language: string): readonly Sentence[] {
  const text = hidden.slice(0, block.end);
  const sentences: Sentence[] = [];
  let start = block.start;
  endPattern.lastIndex = start;
  for (;;) {
    const found = endPattern.exec(text);
    if (found && !endsSentence(text, found.index, language)) continue;
    const end = found ? found.index + found[0].length : text.length;
    const words = wordsIn(text, start, end);
    if (words.length > 0) sentences.push({ start: words[0]?.start ?? start, end, words });
    if (!found) return sentences;
    start = end;
  }
}

/** A full stop behind `e.g`, or behind one capital letter that is no unit, ends nothing; behind `2 min` it does. */
function endsSentence(text: string, at: number, language: string): boolean {
  if (text[at] !== '.') return true;
  const before = text.slice(Math.max(0, at - 12), at);
  const word = /[\p{L}.]+$/u.exec(before)?.[0] ?? '';
  const isName = /(?<!\p{N}\s?)\b\p{Lu}$/u.test(before) && word.length === 1 && /^\s+\p{Lu}/u.test(text.slice(at + 1));
  const isUnit = /\p{N}\s?\p{L}+$/u.test(before);
  return !isName && (isUnit || !languageOf(language)?.abbreviations.has(word.toLowerCase()));
}

function wordsIn(text: string, start: number, end: number): readonly Word[] {
  return [...text.slice(start, end).matchAll(wordPattern)].map(({ index, 0: word }) => ({
    text: word,
    start: start + index,
    end: start + index + word.length,
  }));
}

/** The words of each part of a sentence that is counted on its own: by colons, semicolons and parentheses. */
export function countedParts(hidden: string, sentence: Sentence): readonly (readonly Word[])[] {
  const parts: Word[][] = [[]];
  const outer: Word[][] = [];
  let before = sentence.start;
  for (const word of sentence.words) {
    for (const sign of hidden.slice(before, word.start)) {
      if (sign === '(') {
        outer.push(parts.at(-1) ?? []);
        parts.push([]);
      } else if (sign === ')' && outer.length > 0) {
        const back = outer.pop() ?? [];
        parts.splice(parts.indexOf(back), 1);
        parts.push(back);
      } else if (sign === ':' || sign === ';' || sign === '|') parts.push([]);
    }
    before = word.end;
    const last = parts.at(-1);
    if (!isUnitOfNumber(hidden, last?.at(-1), word)) last?.push(word);
  }
  return parts;
}

/** Whether a word is the unit of the number before it: both are one word. */
function isUnitOfNumber(hidden: string, before: Word | undefined, word: Word): boolean {
  if (!before || !/\p{N}$/u.test(before.text) || !/^\s$/u.test(hidden.slice(before.end, word.start))) return false;
  const unit = scanUnit(hidden, word.start);
  return unit !== undefined && unit.end >= word.end;
}

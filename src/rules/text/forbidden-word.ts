// A word that the book's terms say never to write.

import type { Book } from '../../model/book.js';
import type { Template, Text } from '../../model/text.js';
import { templatesOf, textsOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'forbidden-word',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [language = 'en'] = book.settings.languages;
    const inUse = (term: Book['terms'][number]): string => term.use.get(language)?.value ?? '';
    const kept = book.terms
      .map(inUse)
      .filter((words) => words !== '')
      .map(patternOf);
    // of two that overlap, `feeder throat` and `throat`, the longer is the one fault
    const nevers = book.terms
      .flatMap((term) => term.never.map(({ value }) => ({ value, use: inUse(term) })))
      .sort((a, b) => b.value.length - a.value.length)
      .map(({ value, use }) => ({ never: patternOf(value), use }));
    for (const template of templatesIn(book, language)) {
      const taken = [...kept];
      for (const { never, use } of nevers) {
        for (const { word, at } of findWord(template, never, taken)) yield { at, data: { word, use, at } };
        taken.push(never);
      }
    }
  },
  say: ({ word, use, at }) => {
    const text = /^\p{Lu}/u.test(word) ? use.slice(0, 1).toUpperCase() + use.slice(1) : use;
    return {
      message: `\`${word}\` is a word that this book never writes`,
      help: `Write \`${text}\`.`,
      note: 'One thing has one name (terms.yaml); search still finds the other word.',
      fixes: [{ title: `Write \`${text}\``, safe: false, edits: [{ at, text }] }],
    };
  },
});

/** Everything that readers see in the language that the procedures are written in. */
function* templatesIn(book: Book, language: string): Iterable<Template> {
  for (const procedure of book.procedures.values()) {
    for (const { text } of textsOf(procedure)) yield* templatesOf(text, language);
    for (const { body } of procedure.prose.get(language) ?? []) yield body;
  }
  for (const text of sharedTexts(book)) yield* templatesOf(text, language);
}

function* sharedTexts(book: Book): Iterable<Text | undefined> {
  for (const { what, harm, avoid } of book.hazards.values()) yield* [what, harm, avoid];
  for (const { tell, options } of book.machines.values()) {
    yield tell?.text;
    for (const option of options) yield* [option.label, option.tell?.text];
  }
  for (const { name, tell } of book.headers.values()) yield* [name, tell?.text];
  for (const things of [book.states, book.events, book.instruments, book.tools]) {
    for (const { label } of things.values()) yield label;
  }
}

/** Each place of the word that is not within words to spare, such as `house` in `feeder house`, nor within a placeholder. */
function* findWord(
  { source }: Template,
  never: RegExp,
  spare: readonly RegExp[],
): Iterable<{ readonly word: string; readonly at: Span }> {
  if (source.value.search(never) < 0) return;
  const spared = [placeholder, ...spare].flatMap((words) => [...source.value.matchAll(words)]);
  for (const { index, 0: word } of source.value.matchAll(never)) {
    const end = index + word.length;
    if (spared.some((one) => one.index <= index && one.index + one[0].length >= end)) continue;
    yield { word, at: spanWithin(source, index, end) };
  }
}

const placeholder = /\{[^{}]*\}/g;

/** Whole words, whatever their capitals. */
function patternOf(words: string): RegExp {
  const literal = words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`(?<![\\p{L}\\p{N}])${literal}(?![\\p{L}\\p{N}])`, 'giu');
}

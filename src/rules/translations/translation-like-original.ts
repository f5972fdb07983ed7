// A text of a translation that is still the original.

import type { Book } from '../../model/book.js';
import type { Template, Text } from '../../model/text.js';
import { leavesOf, textsOf } from '../../model/walk.js';
import { rule } from '../rule.js';
import { sharedTexts } from './shared-texts.js';

export default rule({
  id: 'translation-like-original',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en', ...others] = book.settings.languages;
    const told = new Set<string>();
    for (const { text, needed } of textsIn(book)) {
      for (const language of others) {
        const original = firstOf(text, first);
        const translated = firstOf(text, language);
        if (!original || !translated || !isSame(original, translated)) continue;
        const { at } = translated.source;
        const key = `${at.file}:${at.start}`;
        if (told.has(key)) continue;
        told.add(key);
        yield { at, related: [{ message: 'the original', at: original.source.at }], data: { language, needed } };
      }
    }
  },
  say: ({ language, needed }) => ({
    message: `The \`${language}\` text is the same as the original`,
    help: needed
      ? 'Translate it: a hazard is told in every language of the book.'
      : 'Translate it, or take it out: what is missing is shown in the language of the book, and listed as missing.',
    note: 'Whoever chose a language reads a sentence of another, and nobody is told that it is still to be translated.',
  }),
});

/** Every text of the book, and whether it must be there in every language. */
function* textsIn(book: Book): Iterable<{ readonly text: Text; readonly needed: boolean }> {
  const hazards = [...book.hazards.values()].flatMap(({ what, harm, avoid }) => [what, harm, avoid]);
  for (const text of sharedTexts(book)) yield { text, needed: hazards.includes(text) };
  for (const procedure of book.procedures.values())
    for (const { text } of textsOf(procedure)) yield { text, needed: false };
}

function firstOf(text: Text, language: string): Template | undefined {
  const choice = text.languages.get(language);
  return choice && [...leavesOf(choice)][0];
}

// names, labels and numbers are alike in many languages: three words of small letters in a row are a sentence
function isSame(original: Template, translated: Template): boolean {
  const plain = ({ source }: Template): string => source.value.trim().replaceAll(/\s+/g, ' ');
  return plain(original) === plain(translated) && /\p{Ll}{2,} \p{Ll}+ \p{Ll}+/u.test(plain(original));
}

// A text of a translation that is still the original.

import type { Template, Text } from '../../model/text.js';
import { leavesOf, textsOf } from '../../model/walk.js';
import { rule } from '../rule.js';

export default rule({
  id: 'translation-like-original',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en', ...others] = book.settings.languages;
    const told = new Set<string>();
    for (const { text } of textsOf(procedure)) {
      for (const language of others) {
        const original = firstOf(text, first);
        const translated = firstOf(text, language);
        if (!original || !translated || !isSame(original, translated)) continue;
        const { at } = translated.source;
        const key = `${at.file}:${at.start}`;
        if (told.has(key)) continue;
        told.add(key);
        yield { at, related: [{ message: 'the original', at: original.source.at }], data: { language } };
      }
    }
  },
  say: ({ language }) => ({
    message: `The \`${language}\` text is the same as the original`,
    help: 'Translate it, or take it out: what is missing is shown in the language of the book, and listed as missing.',
    note: 'Whoever chose a language reads a sentence of another, and nobody is told that it is still to be translated.',
  }),
});

function firstOf(text: Text, language: string): Template | undefined {
  const choice = text.languages.get(language);
  return choice && [...leavesOf(choice)][0];
}

// names, labels and numbers are alike in many languages: three words of small letters in a row are a sentence
function isSame(original: Template, translated: Template): boolean {
  const plain = ({ source }: Template): string => source.value.trim().replaceAll(/\s+/g, ' ');
  return (
    original.source.at.file !== translated.source.at.file &&
    plain(original) === plain(translated) &&
    /\p{Ll}{2,} \p{Ll}+ \p{Ll}+/u.test(plain(original))
  );
}

// A thing that is called by another word than the one that the book prefers.

import type { Book, Term } from '../../model/book.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from './passages.js';
import { type FoundWord, findWords, type OtherWord, type Sought, seek } from './term-words.js';

/** Letters that a word of the first language has at least, to be known as such in a translation. */
const leastLetters = 5;

export default rule({
  id: 'term-two-ways',
  severity: 'hint',
  needs: 'book',
  run: (book) => judgePassages(book, findOthers),
  say: ({ word, use, edit }: FoundWord) => ({
    message: `\`${word}\` is another word for \`${use}\`, which this book prefers`,
    help: `Write \`${use}\`, and turn the words around it to it.`,
    note: 'One thing has one name: who reads two looks for two things (IEC/IEEE 82079-1, from memory). Search finds both.',
    ...(edit ? { fixes: [{ title: `Write \`${use}\``, safe: false, edits: [edit] }] } : {}),
  }),
});

function* findOthers(passages: readonly Passage[], book: Book): Iterable<Finding<FoundWord>> {
  const others = othersOf(book);
  for (const passage of passages) {
    for (const found of findWords(passage, others.get(passage.language))) {
      yield { at: found.at, related: [{ message: 'listed here', at: found.listedAt }], data: found };
    }
  }
}

function othersOf(book: Book): ReadonlyMap<string, Sought> {
  const [first = 'en'] = book.settings.languages;
  return new Map(
    book.settings.languages.map((language) => {
      // a word that is the term of another thing is right there
      const terms = new Set(book.terms.flatMap((term) => term.use.get(language)?.value.toLowerCase() ?? []));
      const words = book.terms.flatMap((term) => wordsFor(term, language, first));
      return [language, seek(words.filter(({ word }) => !terms.has(word.toLowerCase())))];
    }),
  );
}

/** What else a term is called in a language: its other words, and in a translation the untranslated term. */
function wordsFor(term: Term, language: string, first: string): readonly OtherWord[] {
  const own = term.use.get(language);
  if (!own) return [];
  const original = language === first ? undefined : term.use.get(first);
  const untranslated = original && original.value.length >= leastLetters ? [original] : [];
  return [...term.also.filter((word) => word.language === language), ...untranslated].map(({ value, at }) => ({
    word: value,
    use: own.value,
    listedAt: at,
  }));
}

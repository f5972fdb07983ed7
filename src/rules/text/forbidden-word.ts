// A word that the book's terms say never to write.

import type { Book } from '../../model/book.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from './passages.js';
import { type FoundWord, findWords, type Sought, seek } from './term-words.js';

export default rule({
  id: 'forbidden-word',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findNevers),
  say: ({ word, use, edit }: FoundWord) => ({
    message: `\`${word}\` is a word that this book never writes`,
    help: `Write \`${use}\`.`,
    note: 'One thing has one name (terms.yaml); search still finds the other word.',
    ...(edit ? { fixes: [{ title: `Write \`${use}\``, safe: false, edits: [edit] }] } : {}),
  }),
});

function* findNevers(passages: readonly Passage[], book: Book): Iterable<Finding<FoundWord>> {
  const nevers = neverOf(book);
  for (const passage of passages) {
    for (const found of findWords(passage, nevers.get(passage.language))) yield { at: found.at, data: found };
  }
}

function neverOf(book: Book): ReadonlyMap<string, Sought> {
  return new Map(
    book.settings.languages.map((language) => [
      language,
      seek(
        book.terms.flatMap(({ use, never }) =>
          never
            .filter((word) => word.language === language)
            .map(({ value, at }) => ({ word: value, use: use.get(language)?.value ?? '', listedAt: at })),
        ),
      ),
    ]),
  );
}

// A word that the book's terms say never to write.

import type { Book, Term } from '../../model/book.js';
import type { Procedure } from '../../model/procedure.js';
import type { Template } from '../../model/text.js';
import { templatesOf, textsOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly word: string;
  readonly use: string;
}

export default rule({
  id: 'forbidden-word',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    for (const term of book.terms) {
      for (const never of term.never) {
        for (const template of templatesIn(procedure, book)) yield* findWord(template, never.value, term);
      }
    }
  },
  say: ({ word, use }) => ({
    message: `\`${word}\` is a word that this book never writes`,
    help: `Write \`${use}\`.`,
    note: 'One thing has one name: search still finds the other word.',
  }),
});

function* templatesIn(procedure: Procedure, book: Book): Iterable<Template> {
  for (const { text } of textsOf(procedure)) yield* templatesOf(text, book.settings.languages[0]);
  for (const { body } of procedure.prose.get(book.settings.languages[0] ?? 'en') ?? []) yield body;
}

function* findWord(template: Template, word: string, term: Term): Iterable<Finding<Facts>> {
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}])${literal(word)}(?![\\p{L}\\p{N}])`, 'giu');
  const use = [...term.use.values()][0]?.value ?? '';
  for (const { index, 0: found } of template.source.value.matchAll(pattern)) {
    yield { at: spanWithin(template.source, index, index + found.length), data: { word: found, use } };
  }
}

function literal(word: string): string {
  return word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

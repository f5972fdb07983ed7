// Words that let something be repeated until it is right, with no count and nothing that says what comes after it.

import type { Book } from '../../model/book.js';
import type { Branch, Step } from '../../model/procedure.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { languageOf } from './languages/languages.js';
import { judgePassages, type Passage } from './passages.js';

interface Facts {
  readonly words: string;
}

export default rule({
  id: 'repeat-without-count',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findRepeats),
  say: ({ words }: Facts) => ({
    message: `“${words}” has no end where it never comes right`,
    help: 'Let a branch lead back, as in `when: { outside: { go: …, at-most: 3, else: call-service } }`; or say how often at most, and what is done then.',
    note: 'DOE-STD-1029: what is repeated has a count, and what comes after it. What stands only in words is neither counted nor proved.',
  }),
});

function* findRepeats(passages: readonly Passage[], book: Book): Iterable<Finding<Facts>> {
  const [first] = book.settings.languages;
  for (const { source, sentences, step, procedure, language: code } of passages) {
    const language = code === first ? languageOf(code) : undefined;
    if (!language || !procedure || (step && branchesOf(step).some(hasCount))) continue;
    for (const { start, end } of sentences) {
      const text = source.value.slice(start, end);
      const found = language.repeats.exec(text);
      if (!found || language.counted.test(text)) continue;
      const at = start + found.index;
      const words = source.value.slice(at, end).replace(/\s+/g, ' ').replace(/[.!]$/, '');
      yield { at: spanWithin(source, at, end), data: { words } };
    }
  }
}

function branchesOf({ otherwise, when, answers, then }: Step): readonly Branch[] {
  const all = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  return all.filter((branch) => branch !== undefined);
}

function hasCount({ atMost, otherwise }: Branch): boolean {
  return atMost !== undefined || (otherwise !== undefined && hasCount(otherwise));
}

// Words that stand where a text is still to be written, and a word that stands twice.

import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from './passages.js';

interface Facts {
  readonly word: string;
  readonly twice: boolean;
}

/** Marks in capitals, and question marks in a row; cut in two here, so that this list is no mark itself. */
const toWrite = /(?<![\p{L}\p{N}])(?:TO(?:DO)|TBD|TBC|FIX(?:ME)|X{3,}|\?\?\?+|PENDIENTE|POR DEFINIR)(?![\p{L}\p{N}])/gu;
const again = /(?<![\p{L}\p{N}'-])(\p{L}{2,}) \1(?![\p{L}\p{N}'-])/giu;
/** These may stand twice in a row. */
const mayRepeat: ReadonlySet<string> = new Set(['had', 'that', 'no', 'nos']);

export default rule({
  id: 'unfinished-text',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findUnfinished),
  say: ({ word, twice }: Facts) => ({
    message: twice
      ? `\`${word}\` stands here twice in a row`
      : `\`${word}\` stands here where a text is still to be written`,
    help: twice
      ? 'Take one of the two out, or write the word that was meant.'
      : 'Write it, or leave the procedure a draft until it is known.',
    note: twice
      ? 'Of two words alike one may have been meant as another.'
      : 'Whoever reads it beside the machine has nobody to ask.',
  }),
});

function* findUnfinished(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const { source, hidden, block, procedure } of passages) {
    if (procedure?.status.value === 'draft') continue;
    const text = hidden.slice(0, block.end);
    for (const [pattern, twice] of [
      [toWrite, false],
      [again, true],
    ] as const) {
      pattern.lastIndex = block.start;
      for (const { index, 0: found, 1: word = found } of text.matchAll(pattern)) {
        if (index < block.start || (twice && mayRepeat.has(word.toLowerCase()))) continue;
        yield { at: spanWithin(source, index, index + found.length), data: { word, twice } };
      }
    }
  }
}

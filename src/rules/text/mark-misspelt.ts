// A mark that is nearly another mark of the book, and used more seldom: a slip in one letter.

import { nearestNames } from '../../diagnostic/nearest.js';
import type { Book } from '../../model/book.js';
import type { Located } from '../../text/source.js';
import { rule } from '../rule.js';

/** The marks of an inspection sheet, which need no other use to be known. Common practice, no source. */
const usual: ReadonlySet<string> = new Set(['good', 'adjusted', 'watch', 'replace', 'not-fitted']);

/** From so many letters on two marks that are nearly alike are one; shorter words are often near, as `worn` and `torn`. */
const leastLetters = 5;

export default rule({
  id: 'mark-misspelt',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const lists = listsOf(book);
    const uses = new Map<string, number>();
    for (const { value } of lists.flat()) uses.set(value, (uses.get(value) ?? 0) + 1);
    for (const list of lists) {
      for (const { value, at } of list) {
        if (usual.has(value)) continue;
        const others = [...usual, ...uses.keys()].filter(
          (one) =>
            !list.some((beside) => beside.value === one) &&
            (usual.has(one) || (one.length >= leastLetters && (uses.get(one) ?? 0) > (uses.get(value) ?? 0))),
        );
        const [meant] = nearestNames(value, others);
        if (meant !== undefined) yield { at, data: { value, meant, at } };
      }
    }
  },
  say: ({ value, meant, at }) => ({
    message: `The mark \`${value}\` is nearly \`${meant}\`, and likely a slip`,
    help: `Write \`${meant}\`, or waive this if it is another mark.`,
    note: 'Marks are counted by their words: one that is misspelt is counted apart.',
    fixes: [{ title: `Write \`${meant}\``, safe: false, edits: [{ at, text: meant }] }],
  }),
});

/** The marks of each step, those that are written once for several sides once. */
function listsOf({ procedures }: Book): readonly (readonly Located<string>[])[] {
  const seen = new Set<string>();
  return [...procedures.values()].flatMap(({ steps }) =>
    steps.flatMap(({ mark }) => {
      const [first] = mark ?? [];
      const key = first && `${first.at.file}:${first.at.start}`;
      if (!mark || key === undefined || seen.has(key)) return [];
      seen.add(key);
      return [mark];
    }),
  );
}

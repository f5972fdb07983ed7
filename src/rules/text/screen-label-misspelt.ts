// A label in bold, as a display or a key has it, that is nearly another label of the book: a slip in one letter.

import { countSlips } from '../../diagnostic/nearest.js';
import type { Book } from '../../model/book.js';
import { leavesOf, templatesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { judgePassages, type Passage } from './passages.js';

/** From so many letters on two words that are nearly alike are one; shorter ones are often near, as `LEFT` and `LIFT`. */
const leastLetters = 5;

/** From so many letters on there may be two slips in a word. */
const longWord = 9;

interface Use {
  readonly label: string;
  readonly language: string;
  readonly at: Span;
}

export default rule({
  id: 'screen-label-misspelt',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const inTexts = judgePassages(book, findLabels);
    const all = [...inTexts, ...labelsOfMachines(book)];
    const told = new Set<Use>();
    for (const use of inTexts) {
      if (all.some((one) => one !== use && one.language === use.language && one.label === use.label)) continue;
      const meant = all.find((one) => one.language === use.language && isNear(use.label, one.label) && !told.has(one));
      if (!meant || isWord(use, meant, book)) continue;
      told.add(use);
      yield {
        at: use.at,
        related: [{ message: `\`${meant.label}\``, at: meant.at }],
        data: { label: use.label, meant: meant.label, at: use.at },
      };
    }
  },
  say: ({ label, meant, at }) => ({
    message: `The label \`${label}\` stands here alone, and is nearly \`${meant}\``,
    help: `Write \`${meant}\`, or mend the other one; waive this if the machine has both.`,
    note: 'Whoever looks for a label finds it letter by letter, or takes the page for that of another machine.',
    fixes: [{ title: `Write \`${meant}\``, safe: false, edits: [{ at, text: meant }] }],
  }),
});

function* findLabels(passages: readonly Passage[]): Iterable<Use> {
  for (const { source, block, language } of passages) {
    for (const { 1: label = '', index } of source.value.slice(0, block.end).matchAll(/\*\*([^*\n]+)\*\*/g)) {
      // what comes of a reference is spelt in one place
      if (index < block.start || /[{}]/.test(label)) continue;
      yield { label, language, at: spanWithin(source, index + 2, index + 2 + label.length) };
    }
  }
}

function labelsOfMachines({ machines }: Book): readonly Use[] {
  return [...machines.values()].flatMap(({ words }) =>
    [...words.values()].flatMap(({ text }) =>
      [...leavesOf(text)].flatMap((one) =>
        [...one.languages.keys()].flatMap((language) =>
          [...templatesOf(one, language)].map(({ source: { value, at } }) => ({ label: value.trim(), language, at })),
        ),
      ),
    ),
  );
}

/** Whether two labels differ in one word, by a slip inside it; not by an ending, as `STORE` and `STORED` do. */
function isNear(one: string, two: string): boolean {
  const [own, other] = oddWords(one, two);
  if (own === undefined || other === undefined) return false;
  if (Math.min(own.length, other.length) < leastLetters || !/^\p{L}+$/u.test(own + other)) return false;
  const [short, long] = own.length < other.length ? [own, other] : [other, own];
  if (long.includes(short) || short[0] !== long[0] || own.slice(0, -1) === other.slice(0, -1)) return false;
  const allowed = short.length < longWord ? 1 : 2;
  return countSlips(own, other, allowed) <= allowed;
}

/** The only word of each label that is another one; none where the labels differ in more. */
function oddWords(one: string, two: string): readonly string[] {
  const [own, other] = [one, two].map((label) => label.toUpperCase().split(/\s+/));
  if (!own || own.length !== other?.length) return [];
  const odd = own.flatMap((word, i) => (word === other[i] ? [] : [[word, other[i] ?? '']]));
  return odd.length === 1 ? (odd[0] ?? []) : [];
}

/** Whether the odd word of the label stands elsewhere in the book, be it in a sentence: then it is a word, and no slip. */
function isWord({ label, at }: Use, meant: Use, book: Book): boolean {
  const word = oddWords(label, meant.label)[0] ?? '';
  const place = `${at.file}:${at.start}`;
  return judgePassages(book, findWords).some(
    ({ words, labels }) => words.has(word) || labels.some((one) => one.word === word && one.place !== place),
  );
}

interface Words {
  readonly words: ReadonlySet<string>;
  readonly labels: readonly { readonly word: string; readonly place: string }[];
}

function* findWords(passages: readonly Passage[]): Iterable<Words> {
  const words = new Set<string>();
  for (const { source, block } of passages) {
    const plain = source.value.slice(block.start, block.end).replace(/\*\*[^*\n]+\*\*/g, ' ');
    for (const [word] of plain.toUpperCase().matchAll(/\p{L}+/gu)) words.add(word);
  }
  const labels = [...findLabels(passages)].flatMap(({ label, at }) =>
    label
      .toUpperCase()
      .split(/\s+/)
      .map((word) => ({ word, place: `${at.file}:${at.start}` })),
  );
  yield { words, labels };
}

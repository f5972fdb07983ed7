// Words that count more of what a table takes than the table has rows: `five loads`, and `rows: 4`.

import { toNumber } from '../../calc/rational.js';
import type { Procedure } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { type Span, spanWithin } from '../../text/source.js';
import { plainLimits } from '../across/siblings.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from '../text/passages.js';
import type { NumberLanguage } from './languages/language.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { headOf, nounsIn } from './naming.js';

interface Facts {
  readonly said: string;
  readonly table: string;
  readonly most: number;
}

export default rule({
  id: 'more-rows-said',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findCounts),
  say: ({ said, table, most }: Facts) => ({
    message: `The text says “${said}”, and the table \`${table}\` has ${most} ${most === 1 ? 'row' : 'rows'} at most`,
    help: 'Mend whichever is wrong: the count in the text, or `rows`.',
    note: 'Whoever takes as many as the text says finds no row for the last one.',
  }),
});

function* findCounts(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const passage of passages) {
    const { procedure, source, block, hidden, sentences } = passage;
    // a translation with another number than its original is reported as that
    if (!procedure || procedure.worksheets.length === 0 || passage.differs) continue;
    const language = numberLanguage(passage.language);
    const tables = tablesOf(procedure, passage.language);
    for (const { 0: all, 1: number = '', 2: thing = '', index } of countsIn(language).matchAll(
      hidden.slice(block.start, block.end),
    )) {
      const count = /^\d/.test(number) ? Number(number) : language.numbers.get(number);
      const named = tables.filter(({ heads }) => heads.some((head) => nounsIn(thing, language).has(head)));
      const [first] = named;
      if (!first || count === undefined || named.some(({ most }) => count <= most)) continue;
      const start = block.start + index;
      const sentence = sentences.findLast((one) => one.start <= start);
      if (!sentence || isOfAnother(source.value.slice(sentence.start, start), language)) continue;
      yield {
        at: spanWithin(source, start, start + all.length),
        related: [{ message: 'the rows of the table', at: first.at }],
        data: { said: source.value.slice(start, start + all.length), table: first.id, most: first.most },
      };
    }
  }
}

/** `every 50 loads`, `after 20 loads`, `if you weigh ten loads`: not those that are taken here. */
function isOfAnother(before: string, { recurring, othersBefore, hedges }: NumberLanguage): boolean {
  const ends = [recurring, othersBefore].some((list) => patternOf(list, '(?<!\\p{L})WORDS\\s+$').test(before));
  return ends || patternOf(hedges, '(?<!\\p{L})WORDS(?!\\p{L})').test(before);
}

const patterns = new WeakMap<NumberLanguage, Caseless>();

/** A number with the word behind it, or one word between: `four loads`, `four weighed loads`. */
function countsIn(language: NumberLanguage): Caseless {
  const known = patterns.get(language);
  if (known) return known;
  const number = `\\d{1,3}|${[...language.numbers.keys()].join('|')}`;
  const made = caseless(`(?<![\\p{L}\\p{N}.,/-])(${number})\\s+((?:\\p{L}+\\s+)?\\p{L}{3,})(?![\\p{L}\\p{N}-])`);
  patterns.set(language, made);
  return made;
}

interface Table {
  readonly id: string;
  readonly most: number;
  /** What a row is of, by the id of the table and by its label. */
  readonly heads: readonly string[];
  readonly at: Span;
}

/** The tables that end somewhere. A label may name what is written in the rows: it counts where its thing is that of the id. */
function tablesOf({ worksheets }: Procedure, code: string): readonly Table[] {
  return worksheets.flatMap(({ id, label, rows }): readonly Table[] => {
    const high = plainLimits(rows)?.high;
    if (!high) return [];
    const ofId = headOf(id.replaceAll(/[_-]/g, ' '), numberLanguage('en'));
    if (ofId === undefined) return [];
    const own = headsIn(label, 'en').includes(ofId) ? headsIn(label, code) : [];
    return [{ id, most: toNumber(high), heads: code.startsWith('en') ? [ofId, ...own] : own, at: rows.source.at }];
  });
}

function headsIn(label: Text | undefined, code: string): readonly string[] {
  const own = label?.languages.get(code);
  return own ? [...leavesOf(own)].flatMap(({ source }) => headOf(source.value, numberLanguage(code)) ?? []) : [];
}

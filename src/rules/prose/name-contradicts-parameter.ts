// The name of a machine or header that says another size than its parameters, or another type: `6-row header` with eight rows.

import { sameDimension } from '../../calc/dimension.js';
import type { Limits } from '../../calc/limits.js';
import { toNumber } from '../../calc/rational.js';
import type { Book, Header } from '../../model/book.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from '../text/passages.js';
import { numberLanguage } from './languages/languages.js';
import { namedIn } from './naming.js';
import { quantitiesOf } from './quantities.js';
import { parametersOf, type Stated } from './stated.js';

interface Facts {
  readonly written: string;
  readonly path: string;
  readonly typed: string;
}

/** A name is round: a header that is called by 30 ft may be 30.5 ft wide. */
const slack = 0.1;

export default rule({
  id: 'name-contradicts-parameter',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findContradictions),
  say: ({ written, path, typed }: Facts) => ({
    message: `The name says \`${written}\`, and \`${path}\` is ${typed}`,
    help: 'Mend whichever is wrong.',
    note: 'Whoever chooses by the name works by the numbers of another.',
  }),
});

function* findContradictions(passages: readonly Passage[], book: Book): Iterable<Finding<Facts>> {
  for (const passage of passages) {
    const { owner, role } = passage;
    const holder = owner?.kind === 'machine' ? book.machines.get(owner.id) : owner && book.headers.get(owner.id);
    if (role !== 'name' || !holder || !owner) continue;
    const stated = parametersOf(owner.kind, [holder]);
    yield* countsIn(passage, stated);
    yield* sizesIn(passage, stated);
    if ('type' in holder) yield* typeIn(passage, holder);
  }
}

/** `8-row`: a bare number before the name of a parameter that is a bare number. */
function* countsIn({ source, language }: Passage, stated: readonly Stated[]): Iterable<Finding<Facts>> {
  for (const { 0: written, 1: digits = '', 2: word = '', index } of source.value.matchAll(
    /(?<![\d.,])(\d+)[ -](\p{L}{3,})/gu,
  )) {
    const [name] = namedIn(word, numberLanguage(language));
    const one = stated.find(
      ({ id, limits }) => id.size === 1 && name !== undefined && id.has(name) && limits.every(isCount),
    );
    const [limits] = one?.limits ?? [];
    if (!one || !limits?.low || toNumber(limits.low) === Number(digits)) continue;
    yield {
      at: spanWithin(source, index, index + written.length),
      related: [{ message: `\`${one.path}\``, at: one.at }],
      data: { written, path: one.path, typed: [...one.typed].join(' or ') },
    };
  }
}

function isCount({ low, high, unit }: Limits): boolean {
  return low !== undefined && high !== undefined && low.num === high.num && unit.symbol === '';
}

/** `35 ft flex platform`: a size in the unit of a parameter, near none of that unit; `20 in rows` names its parameter itself. */
function* sizesIn({ source, hidden, block, language }: Passage, stated: readonly Stated[]): Iterable<Finding<Facts>> {
  for (const { start, end, low, high, unit, form } of quantitiesOf(hidden, block, language)) {
    const behind = [...namedIn(source.value.slice(end).split(/[,;(]/)[0] ?? '', numberLanguage(language))];
    const alike = stated.filter(({ limits }) =>
      limits.every(
        (one) => areAlike(one.unit.symbol, unit.symbol) && sameDimension(one.unit.dimension, unit.dimension),
      ),
    );
    const [one] = alike;
    if (!one || form === 'range' || stated.some(({ id }) => behind.some((word) => id.has(word)))) continue;
    if (alike.some(({ limits }) => limits.some((each) => isNear(each, toNumber(low), toNumber(high))))) continue;
    if (/^\s*$/.test(source.value.slice(end)) || /(?:,|\bof|\bde)\s*$/i.test(source.value.slice(0, start))) continue;
    yield {
      at: spanWithin(source, start, end),
      related: [{ message: `\`${one.path}\``, at: one.at }],
      data: { written: source.value.slice(start, end), path: one.path, typed: [...one.typed].join(' or ') },
    };
  }
}

/** Units that sizes of one kind are given in: a width in feet or meters, a spacing in inches or millimeters. */
const units = [new Set(['ft', 'm', 'yd']), new Set(['in', 'mm', 'cm'])];

function areAlike(one: string, two: string): boolean {
  return one === two || units.some((kind) => kind.has(one) && kind.has(two));
}

/** `Draper, 35 ft` of the type `platform`. */
function* typeIn({ source, language }: Passage, { type }: Header): Iterable<Finding<Facts>> {
  for (const [words, types] of numberLanguage(language).headerWords) {
    const found = words.exec(source.value);
    if (!found || types.includes(type.value)) continue;
    yield {
      at: spanWithin(source, found.index, found.index + found[0].length),
      related: [{ message: '`type`', at: type.at }],
      data: { written: found[0], path: 'type', typed: `\`${type.value}\`` },
    };
    return;
  }
}

function isNear(limits: Limits, low: number, high: number): boolean {
  const [from, to] = [limits.low ?? limits.high, limits.high ?? limits.low].map((end) => (end ? toNumber(end) : 0));
  return from !== undefined && to !== undefined && from * (1 - slack) <= high && low <= to * (1 + slack);
}

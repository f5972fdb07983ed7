// What texts say of the mass of a bushel and of the moisture that a crop is traded with, beside the numbers of crops.yaml.

import { isDimensionless, sameDimension } from '../../calc/dimension.js';
import { evaluate } from '../../calc/expression/evaluate.js';
import { add, compare, subtract } from '../../calc/rational.js';
import { findUnit } from '../../calc/unit.js';
import type { Book, Crop } from '../../model/book.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { templatesOf } from '../../model/walk.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { judgePassages, type Passage } from '../text/passages.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { type Quantity, quantitiesOf } from './quantities.js';

/** A number in a text that the crop which is named there does not have. */
export interface WrongCrop {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly crop: string;
  readonly key: 'mass' | 'base-moisture';
  readonly typed: WrittenExpr;
}

/** Numbers of crops in words that differ from the typed ones by more than their last digit may be rounded. */
export function wrongCrops(book: Book): readonly WrongCrop[] {
  return judgePassages(book, findMentions).flatMap((mention) => {
    const crop = cropIn(mention, [...book.crops.values()]);
    const typed = mention.key === 'mass' ? crop?.mass : crop?.baseMoisture;
    if (!crop || !typed || fits(mention.quantity, typed)) return [];
    const { passage, quantity, key } = mention;
    return [{ passage, quantity, crop: crop.id, key, typed }];
  });
}

interface Mention {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly key: WrongCrop['key'];
  readonly sentence: string;
  /** The part of the sentence around the number, for one that names several crops. */
  readonly clause: string;
}

function* findMentions(passages: readonly Passage[]): Iterable<Mention> {
  for (const passage of passages) {
    if (passage.role === 'label' || passage.role === 'reason' || passage.differs) continue;
    const { source, sentences } = passage;
    for (const quantity of quantitiesOf(passage.hidden, passage.block, passage.language)) {
      const place = sentences.findLast(({ start }) => start <= quantity.start);
      if (!place || quantity.form !== 'single') continue;
      const [start, end] = [quantity.start - place.start, quantity.end - place.start];
      const sentence = source.value.slice(place.start, place.end);
      const key = keyOf({ sentence, start, end, quantity }, passage.language);
      if (!key) continue;
      const from = Math.max(...[...sentence.slice(0, start).matchAll(cuts)].map(({ index }) => index), 0);
      const behind = sentence.slice(end).search(cuts);
      yield { passage, quantity, key, sentence, clause: sentence.slice(from, behind < 0 ? undefined : end + behind) };
    }
  }
}

const cuts = /[,;:]\s|\s(?:and|but|y|pero)\s/gi;
const massOfBushel = findUnit('lb/bu');

interface Said {
  readonly sentence: string;
  readonly start: number;
  readonly end: number;
  readonly quantity: Quantity;
}

/** Which number of a crop is meant; none where a sentence tells of what may be, or of a lot and not of the trade. */
function keyOf({ sentence, start, end, quantity }: Said, code: string): WrongCrop['key'] | undefined {
  const language = numberLanguage(code);
  const [before, behind] = [sentence.slice(0, start), sentence.slice(end)];
  const isOther = patternOf(language.othersBefore, '(?<!\\p{L})WORDS\\s+$').test(before);
  if (isOther || patternOf([...language.hedges, ...language.lots], '(?<!\\p{L})WORDS(?!\\p{L})').test(sentence))
    return undefined;
  const { dimension, symbol } = quantity.unit;
  if (massOfBushel && sameDimension(dimension, massOfBushel.dimension)) return 'mass';
  const { bushel, traded } = language;
  const isMass = sameDimension(dimension, findUnit('lb')?.dimension ?? []);
  if (isMass && (bushel.behind.test(behind) || bushel.before.test(before))) return 'mass';
  return isDimensionless(dimension) && symbol === '%' && traded.test(sentence) ? 'base-moisture' : undefined;
}

/** The only crop that the sentence names, or its part around the number. */
function cropIn({ sentence, clause, passage }: Mention, crops: readonly Crop[]): Crop | undefined {
  for (const text of [sentence, clause]) {
    const named = crops.filter((crop) => namesOf(crop, passage.language).some((name) => name.test(text)));
    if (named.length === 1) return named[0];
  }
  return undefined;
}

function namesOf({ id, label }: Crop, code: string): readonly Caseless[] {
  const labels = [...templatesOf(label, code)].map(({ source }) => source.value);
  const names = code.startsWith('en') ? [...labels, id.replaceAll('-', ' ')] : labels;
  return names.map((name) => caseless(`(?<!\\p{L})${name.replaceAll(/[^\p{L}\p{N} ]/gu, '.')}(?!\\p{L})`));
}

function fits({ low, high, slack }: Quantity, { expr }: WrittenExpr): boolean {
  const value = evaluate(expr, () => undefined);
  if (!value.ok) return true;
  return compare(value.value.low, add(high, slack)) <= 0 && compare(subtract(low, slack), value.value.high) <= 0;
}

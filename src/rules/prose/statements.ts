// What the words of a book say of its typed numbers: each quantity in a text that names one, and whether it fits. Rather says
// nothing than takes another quantity for the one that is typed.

import { sameDimension } from '../../calc/dimension.js';
import { divide, equals, type Rational } from '../../calc/rational.js';
import type { Book } from '../../model/book.js';
import { remembering } from '../../text/remember.js';
import type { Context } from '../rule.js';
import type { Block } from '../text/blocks.js';
import { judgePassages, type Passage } from '../text/passages.js';
import type { Sentence } from '../text/sentences.js';
import { statedBeside } from './beside.js';
import { sharesVerb } from './carried.js';
import { isClaim } from './claims.js';
import { conversionsOf } from './conversions.js';
import { fits, holds, isCloser, isSame } from './fitting.js';
import type { NumberLanguage } from './languages/language.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { type NamedRig, rigNamed } from './named-rigs.js';
import { type Quantity, quantitiesOf } from './quantities.js';
import { headFor, type Mention, type Ranked, rank, sure } from './ranking.js';
import { type Numbers, parametersOf, type Stated, statedIn } from './stated.js';

/** A quantity in words, and the typed number that the words name. */
export interface Statement {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly stated: Stated;
  readonly verdict: 'contradicts' | 'equals' | 'equals-some' | 'fits';
  /** The machine or header that the words name, as a rig is written: they speak of that alone. */
  readonly on?: string;
}

interface Found extends Mention {
  readonly sentence: Sentence;
  /** The quantity or reference before it in the sentence. */
  readonly earlier?: Block;
}

/** Every statement of a book that can be judged. */
export function statementsOf(context: Context): readonly Statement[] {
  const { book, resolved } = context;
  const mentions = judgePassages(book, findMentions);
  if (mentions.length === 0) return [];
  // two rules ask for them; each must have read all that they come from, whoever asked first
  return remember(resolved.variants, [book.machines, book.headers, ...mentions], () => judgeAll(mentions, context));
}

const remember = remembering<readonly Statement[]>();

function judgeAll(mentions: readonly Found[], context: Context): readonly Statement[] {
  const { book } = context;
  const stated = statedIn(context);
  const all = mentions.flatMap((mention) => {
    const named = mention.passage.procedure && rigNamed(mention.passage, mention.sentence, book);
    const numbered = numbersFor(mention.passage, { book, stated, ...(named ? { named } : {}) });
    return rememberJudged(mention, [numbered], () => {
      const numbers = numbered.filter(
        ({ limits: [first] }) => first && sameDimension(first.unit.dimension, mention.quantity.unit.dimension),
      );
      const found = numbers.length === 0 ? otherUnit(mention, numbered) : judge(mention, numbers);
      return named ? found.map((one) => ({ ...one, on: rigText(named) })) : found;
    });
  });
  return all.filter((one) => one.verdict !== 'contradicts' || !isSaidAgain(one, all));
}

/** Whether a number only repeats one in another unit of which nothing can be said, or of which it is said that it is wrong. */
function isSaidAgain({ passage, quantity }: Statement, all: readonly Statement[]): boolean {
  const again = conversionsOf(passage).find(({ second }) => second.start === quantity.start);
  if (!again) return false;
  const told = all.find((one) => one.passage === passage && one.quantity.start === again.first.start);
  return told === undefined || told.verdict === 'contradicts';
}

/** `tarn-60`, `row-12x20`, or both: `tarn-60+row-12x20`. */
function rigText({ machine, header }: NamedRig): string {
  return [machine, header].filter((part) => part !== undefined).join('+');
}

// an edit leaves most procedures with the numbers that they had
const rememberJudged = remembering<readonly Statement[]>();
const rememberOwned = remembering<readonly Stated[]>();
const none: readonly Stated[] = [];

/** The digits of typed limits, both ends, with a unit of another kind than anything typed here has: a slip in the unit. */
function otherUnit({ passage, quantity }: Found, numbers: readonly Stated[]): readonly Statement[] {
  if (quantity.form !== 'range') return [];
  const count = (end: Rational, { factor }: Quantity['unit']): Rational => divide(end, factor);
  const [from, to] = [count(quantity.low, quantity.unit), count(quantity.high, quantity.unit)];
  const stated = numbers.find(({ limits }) =>
    limits.some(
      ({ low, high, unit }) => low && high && equals(count(low, unit), from) && equals(count(high, unit), to),
    ),
  );
  return stated ? [{ passage, quantity, stated, verdict: 'contradicts' }] : [];
}

function* findMentions(passages: readonly Passage[]): Iterable<Found> {
  for (const passage of passages) {
    if (passage.role === 'label' || passage.role === 'reason' || passage.differs) continue;
    const quantities = quantitiesOf(passage.hidden, passage.block, passage.language);
    if (quantities.length === 0) continue;
    const references = [...passage.source.value.matchAll(/\{[^{}]+\}/g)];
    const all = [
      ...quantities,
      ...references.map(({ 0: text, index }) => ({ start: index, end: index + text.length })),
    ];
    for (const quantity of quantities) {
      const sentence = passage.sentences.findLast(({ start }) => start <= quantity.start);
      if (!sentence) continue;
      const earlier = all
        .filter((one) => one.start >= sentence.start && one.end <= quantity.start)
        .sort((a, b) => a.start - b.start)
        .at(-1);
      const clause = clauseOf(passage, sentence, { quantity, all });
      yield { passage, sentence, quantity, clause, ...(earlier ? { earlier } : {}) };
    }
  }
}

/** The part of a sentence that a quantity is named in: all of it, where it has no other quantity and no reference to one. */
function clauseOf(
  { hidden, language }: Passage,
  { start, end }: Sentence,
  { quantity, all }: { readonly quantity: Block; readonly all: readonly Block[] },
): Block {
  const others = all.filter((one) => one !== quantity && one.start >= start && one.end <= end);
  if (others.length === 0) return { start, end };
  const cuts = cutsOf(hidden.slice(start, end), numberLanguage(language))
    .map((cut) => start + cut)
    .filter((cut) => !all.some((one) => one.start < cut && cut < one.end));
  const from = cuts.findLast((cut) => cut < quantity.start) ?? start;
  return { start: from, end: cuts.find((cut) => cut >= quantity.end) ?? end };
}

/** Where a sentence may be cut into what names one number each. */
function cutsOf(text: string, { links }: NumberLanguage): readonly number[] {
  return patternOf(links, '[,;:|](?=\\s)|\\sWORDS(?=\\s)')
    .matchAll(text)
    .map(({ index }) => index);
}

interface Known {
  readonly book: Book;
  readonly stated: ReadonlyMap<string, Numbers>;
  readonly named?: NamedRig;
}

function numbersFor({ procedure, owner }: Passage, { book, stated, named }: Known): readonly Stated[] {
  if (procedure) {
    const numbers = stated.get(procedure.id);
    return (named ? numbers?.on(named) : numbers?.all) ?? none;
  }
  const holder = owner?.kind === 'machine' ? book.machines.get(owner.id) : owner && book.headers.get(owner.id);
  return owner && holder ? rememberOwned(holder, [], () => parametersOf(owner.kind, [holder])) : none;
}

function judge(mention: Found, numbers: readonly Stated[]): readonly Statement[] {
  const { passage, quantity } = mention;
  const beside = statedBeside(passage.source.value, quantity, numbers);
  if (beside) return fits(beside, quantity) ? [] : [{ passage, quantity, stated: beside, verdict: 'contradicts' }];
  const ranked = rank(mention, numbers);
  const [best] = ranked;
  if (!best || best.score < sure) return [];
  const strong = ranked.filter(({ score }) => score === best.score).map(({ stated }) => stated);
  const same = strong.find((one) => one.limits.some((limits) => isSame(limits, quantity)));
  if (same) {
    const isAll = same.limits.every((limits) => isSame(limits, quantity) || isCloser(limits, same));
    return [{ passage, quantity, stated: same, verdict: isAll ? 'equals' : 'equals-some' }];
  }
  // what is named by words of its own may be meant as well
  const meant = ranked.filter(
    (one) => one.score === best.score || (one.score >= 1 && [...one.by].some((word) => !best.by.has(word))),
  );
  const half = halfOf(mention, meant);
  if (half) return [{ passage, quantity, stated: half.stated, verdict: 'contradicts' }];
  if (meant.some(({ stated }) => fits(stated, quantity))) return [];
  // where the sentence refers to the value by name, another number in it is of something else
  if (isReferredTo(mention, best.stated)) return [];
  return says(mention, best.stated) ? [{ passage, quantity, stated: best.stated, verdict: 'contradicts' }] : [];
}

function isReferredTo({ passage: { source }, sentence }: Found, { path, refers }: Stated): boolean {
  return refers && source.value.slice(sentence.start, sentence.end).includes(`{${path}}`);
}

/**
 * The limits of which a range in the words has one end and not the other, though it lies within them. Where the text goes on
 * from the odd end, as in the next row of a table, it tells of parts of the limits.
 */
function halfOf({ passage, quantity }: Found, meant: readonly Ranked[]): Ranked | undefined {
  if (quantity.form !== 'range' || passage.role === 'name') return undefined;
  const holding = meant.flatMap((ranked) =>
    ranked.stated.limits.filter((limits) => holds(limits, quantity, undefined)).map((limits) => ({ ranked, limits })),
  );
  const odd = holding.map(({ limits: { low, high } }) => {
    const [sameLow, sameHigh] = [low && equals(low, quantity.low), high && equals(high, quantity.high)];
    return low && high && sameLow !== sameHigh ? (sameLow ? quantity.high : quantity.low) : undefined;
  });
  const [first] = odd;
  if (!first || odd.some((end) => end === undefined || !equals(end, first))) return undefined;
  const { hidden, language } = passage;
  const goesOn = quantitiesOf(hidden, { start: 0, end: hidden.length }, language).some(
    ({ start, low, high }) => start !== quantity.start && (equals(low, first) || equals(high, first)),
  );
  return goesOn ? undefined : holding[0]?.ranked;
}

/** Whether the words say that the typed number is this quantity. */
function says({ passage, sentence, quantity, earlier }: Found, stated: Stated): boolean {
  const { kind } = stated;
  const { role, source, language } = passage;
  if (role === 'name' || standsAlone(passage, quantity, stated)) return true;
  const { start, end } = quantity;
  const isPlain = (kind === 'hold' || kind === 'wait') && role !== 'prose';
  const head = headFor(stated, passage);
  const said = {
    text: source.value,
    sentence,
    start,
    end,
    isPlain,
    isHeading: role === 'heading',
    isLeast: kind === 'wait',
  };
  const words = numberLanguage(language);
  if (isClaim({ ...said, ...(head === undefined ? {} : { head }) }, words)) return true;
  if (!earlier || !sharesVerb(passage, { earlier, start }, stated)) return false;
  return isClaim({ ...said, carriedFrom: earlier.start }, words);
}

/** Behind a comma: the caption of a picture, and the step that reads it, tell there what is to be seen. */
function standsAlone({ source, block, role, step }: Passage, { start }: Quantity, { kind, steps }: Stated): boolean {
  const before = source.value.slice(block.start, start);
  if (!/[,:(]\s*$/.test(before)) return false;
  const isOfStep = kind === 'value' && role !== 'prose' && step !== undefined && steps.has(step.id.value);
  return isOfStep || /!\[[^\]]*$/.test(before);
}

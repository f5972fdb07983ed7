// What the words of a book say of its typed numbers: each quantity in a text that names one, and whether it fits. Rather says
// nothing than takes another quantity for the one that is typed.

import { sameDimension } from '../../calc/dimension.js';
import type { Limits } from '../../calc/limits.js';
import { add, compare, equals, type Rational, subtract } from '../../calc/rational.js';
import type { Book } from '../../model/book.js';
import type { Context } from '../rule.js';
import type { Block } from '../text/blocks.js';
import { judgePassages, type Passage } from '../text/passages.js';
import type { Sentence } from '../text/sentences.js';
import { namedIn } from './naming.js';
import { type Quantity, quantitiesOf } from './quantities.js';
import { parametersOf, type Stated, statedIn } from './stated.js';

/** A quantity in words, and the typed number that the words name. */
export interface Statement {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly stated: Stated;
  readonly verdict: 'contradicts' | 'equals' | 'equals-some' | 'fits';
}

interface Mention {
  readonly passage: Passage;
  readonly sentence: Sentence;
  readonly quantity: Quantity;
  /** Where its name is looked for. */
  readonly clause: Block;
}

/** Every statement of a book that can be judged. */
export function statementsOf(context: Context): readonly Statement[] {
  const { book } = context;
  const mentions = judgePassages(book, findMentions);
  const stated = mentions.length > 0 ? statedIn(context) : new Map<string, readonly Stated[]>();
  return mentions.flatMap((mention) => {
    const numbers = numbersFor(mention.passage, book, stated).filter(
      ({ limits: [first] }) => first && sameDimension(first.unit.dimension, mention.quantity.unit.dimension),
    );
    return numbers.length === 0 ? [] : judge(mention, numbers);
  });
}

function* findMentions(passages: readonly Passage[]): Iterable<Mention> {
  for (const passage of passages) {
    if (passage.role === 'label' || passage.role === 'reason' || passage.differs) continue;
    const quantities = quantitiesOf(passage.hidden, passage.block, passage.language);
    for (const quantity of quantities) {
      const sentence = passage.sentences.findLast(({ start }) => start <= quantity.start);
      if (sentence)
        yield { passage, sentence, quantity, clause: clauseOf(passage, sentence, { quantity, quantities }) };
    }
  }
}

/** The part of a sentence that a quantity is named in: all of it, where it has no other quantity. */
function clauseOf(
  { hidden }: Passage,
  { start, end }: Sentence,
  { quantity, quantities }: { readonly quantity: Quantity; readonly quantities: readonly Quantity[] },
): Block {
  const others = quantities.filter((one) => one !== quantity && one.start >= start && one.end <= end);
  if (others.length === 0) return { start, end };
  const cuts = [...hidden.slice(start, end).matchAll(/[,;:|](?=\s)|\s(?:and|but|y|pero)(?=\s)/g)]
    .map(({ index }) => start + index)
    .filter((cut) => !quantities.some((one) => one.start < cut && cut < one.end));
  const from = cuts.findLast((cut) => cut < quantity.start) ?? start;
  return { start: from, end: cuts.find((cut) => cut >= quantity.end) ?? end };
}

function numbersFor(
  { procedure, owner }: Passage,
  book: Book,
  stated: ReadonlyMap<string, readonly Stated[]>,
): readonly Stated[] {
  if (procedure) return stated.get(procedure.id) ?? [];
  const holder = owner?.kind === 'machine' ? book.machines.get(owner.id) : owner && book.headers.get(owner.id);
  return owner && holder ? parametersOf(owner.kind, [holder]) : [];
}

function judge(mention: Mention, numbers: readonly Stated[]): readonly Statement[] {
  const { passage, quantity } = mention;
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
  if (meant.some(({ stated }) => fits(stated, quantity))) return [];
  return isClaim(mention, best.stated) ? [{ passage, quantity, stated: best.stated, verdict: 'contradicts' }] : [];
}

/** What a naming must reach to be sure. */
const sure = 2;

interface Ranked {
  readonly stated: Stated;
  readonly score: number;
  /** The words that name it. */
  readonly by: ReadonlySet<string>;
}

function rank(mention: Mention, numbers: readonly Stated[]): readonly Ranked[] {
  const { passage, clause } = mention;
  const text = passage.source.value.slice(clause.start, clause.end);
  const [words, nouns] = [namedIn(text), namedIn(text, new Map())];
  const around = namedIn(
    [passage.section?.heading?.text, passage.step?.id.value, above(passage)].join(' ').replaceAll(/[_-]/g, ' '),
  );
  const heads = numbers.map((stated) => headFor(stated, passage));
  return numbers
    .map((stated, i) => {
      const isOnly = heads.filter((head) => head === heads[i]).length === 1;
      const names = [...namesFor(stated, passage), ...stated.id];
      return {
        stated,
        score: scoreOf(stated, {
          mention,
          words,
          around,
          isHead: nouns.has(heads[i] ?? '') && (isOnly || around.has(heads[i] ?? '')),
        }),
        by: new Set(names.filter((name) => words.has(name) || around.has(name))),
      };
    })
    .sort((a, b) => b.score - a.score);
}

function namesFor({ labels, id }: Stated, { language }: Passage): ReadonlySet<string> {
  return labels.get(language)?.words ?? (language.startsWith('en') ? id : new Set());
}

function headFor({ labels, id }: Stated, { language }: Passage): string | undefined {
  const label = labels.get(language);
  return label ? label.head : language.startsWith('en') ? [...id].at(-1) : undefined;
}

function above({ block, source }: Passage): string {
  return block.above ? source.value.slice(block.above.start, block.above.end) : '';
}

interface Naming {
  readonly mention: Mention;
  readonly words: ReadonlySet<string>;
  readonly around: ReadonlySet<string>;
  /** Whether the thing itself is named, and no other number of the kind is called so or the heading names it too. */
  readonly isHead: boolean;
}

/** 0: not named; 1: perhaps; from 2 on named, the more words the higher. */
function scoreOf(stated: Stated, { mention, words, around, isHead }: Naming): number {
  const { passage } = mention;
  const ofStep = passage.step !== undefined && stated.steps.has(passage.step.id.value);
  if (stated.kind === 'hold' || stated.kind === 'wait') return ofStep && speaksOf(stated, passage, words) ? 9 : 0;
  if (passage.role === 'name') return nameSays(mention, stated) ? sure : 0;
  if (stated.kind === 'state' && stated.path === passage.state) return 9;
  const byLabel = coverage(namesFor(stated, passage), words, around);
  // an id of one word, such as `work`, is a word like others
  const byId = stated.id.size > 1 && passage.language.startsWith('en') ? coverage(stated.id, words, around) : 0;
  const named = Math.max(byLabel, byId);
  const surer = namesOwner(stated, words) || isHead ? 0.5 : 0;
  const best = named > 0 && named < sure ? named + surer : named;
  if (ofStep && passage.role !== 'prose') return Math.max(best, sure) + 1;
  return ofStep && best > 0 ? Math.max(best, sure) : best;
}

/** Whether the name of a machine or header gives a parameter: `35 ft` any, `20 in rows` one that is called by rows. */
function nameSays({ passage: { source }, quantity }: Mention, { id }: Stated): boolean {
  const behind = /^[\s-]*(\p{L}+)/u.exec(source.value.slice(quantity.end))?.[1];
  if (behind !== undefined) return [...namedIn(behind)].some((word) => id.has(word));
  return /(?:^|[,;(]|\bof|\bde)\s*$/i.test(source.value.slice(0, quantity.start));
}

/** Whether the machine or header is named that a parameter, named by its last word at least, belongs to. */
function namesOwner({ kind, path, id }: Stated, words: ReadonlySet<string>): boolean {
  if (kind !== 'parameter' || !words.has([...id].at(-1) ?? '')) return false;
  const owners = path.startsWith('header.') ? 'header cabezal' : 'machine maquina';
  return [...namedIn(owners)].some((owner) => words.has(owner));
}

/** Whether a text speaks of the hold or wait of its step, and does not refer to it. */
function speaksOf({ kind }: Stated, { role, source, step }: Passage, words: ReadonlySet<string>): boolean {
  if (source.value.includes(`{${kind}}`)) return false;
  if (role === 'step' || role === 'card') return true;
  const orders =
    kind === 'hold' ? ['hold', 'press', 'key', 'mantenga', 'pulse', 'tecla'] : ['wait', 'espere', 'espera'];
  return role === 'prose' && step !== undefined && orders.some((order) => words.has(order));
}

function coverage(names: ReadonlySet<string>, words: ReadonlySet<string>, around: ReadonlySet<string>): number {
  const here = [...names].filter((name) => words.has(name)).length;
  const all = [...names].filter((name) => words.has(name) || around.has(name)).length;
  if (names.size === 0 || (here === 0 && all < names.size)) return 0;
  const head = [...names].at(-1) ?? '';
  if (all === names.size) return 2 + all;
  if (all >= 2 && all * 5 >= names.size * 3) return 2;
  return here > 0 && (words.has(head) || all * 2 >= names.size) ? 1.5 : 1;
}

/** Whether a quantity is exactly what is typed. */
function isSame({ low, high }: Limits, quantity: Quantity): boolean {
  return low !== undefined && high !== undefined && equals(low, quantity.low) && equals(high, quantity.high);
}

/** The limits in use of a value lie within its tolerance: they are the same number seen closer. */
function isCloser(limits: Limits, { kind, limits: all }: Stated): boolean {
  return kind === 'value' && all.some((other) => other !== limits && within(other, limits));
}

function within(outer: Limits, { low, high }: Limits): boolean {
  return (
    (!outer.low || (low !== undefined && compare(outer.low, low) <= 0)) &&
    (!outer.high || (high !== undefined && compare(high, outer.high) <= 0))
  );
}

function fits({ limits, besides, kind }: Stated, quantity: Quantity): boolean {
  const exact = kind === 'hold' || kind === 'wait';
  const slack = exact ? undefined : quantity.slack;
  return (
    limits.some((one) => holds(one, quantity, slack)) ||
    [...limits, ...besides].some(({ low, high, nominal }) =>
      [low, high, nominal].some(
        (end) =>
          end !== undefined && near(end, quantity.low, quantity.slack) && near(end, quantity.high, quantity.slack),
      ),
    ) ||
    besides.some((one) => one.low !== undefined && one.high !== undefined && bothNear(one, quantity))
  );
}

function bothNear({ low, high }: Limits, quantity: Quantity): boolean {
  return (
    low !== undefined &&
    high !== undefined &&
    near(low, quantity.low, quantity.slack) &&
    near(high, quantity.high, quantity.slack)
  );
}

function holds({ low, high }: Limits, quantity: Quantity, slack: Rational | undefined): boolean {
  const [from, to] = slack ? [add(quantity.low, slack), subtract(quantity.high, slack)] : [quantity.low, quantity.high];
  return (!low || compare(low, from) <= 0) && (!high || compare(to, high) <= 0);
}

function near(a: Rational, b: Rational, slack: Rational): boolean {
  return compare(a, add(b, slack)) <= 0 && compare(subtract(b, slack), a) <= 0;
}

const claims =
  /(?:^|[\s(|:=])(?:is|are|be|reads?|shows?|of|to|at|between|has|have|measures?|weighs?|covers?|stays?|holds?|gives?|needs?|for|least|most|than|es|son|ser|estar|mide|miden|lee|leen|muestra|de|a|entre|tiene|pesa|cubre|durante|menos|mucho|espere|wait|=|:|\(|\|)[\s|(]*(?:about |around |exactly |roughly |unos |unas |exactamente |aproximadamente )?$/i;
const after = /^\s*(?:wide|high|tall|long|deep|warm|hot|de ancho|de alto|de largo|ancho|alto)\b/i;
const otherBefore =
  /(?:\b(?:by|within|per|every|each|another|after|until|before|from|plus|minus|more than|less than|over|under|above|below|beyond|past|instead of|difference of|not|say|por|cada|otros?|otras?|despu[ée]s de|hasta|antes de|m[áa]s de|menos de|sobre|bajo|encima de|debajo de)\s+|[±+]\s*|\b(?:by|por)\s+(?:about|unos)\s+)$/i;
const otherAfter =
  /^\s*(?:-\s*)?(?:more|less|higher|lower|longer|shorter|wider|narrower|apart|away|off|out|range|scale|supply|battery|fuse|either|per|before|after|later|earlier|or more|at a time|of play|steps?|marks?|free|m[áa]s|menos|antes|despu[ée]s|libres?)\b/i;
const hedged =
  /\b(?:if|unless|example|e\.g|suppose|would|could|might|wrong|fault|faulty|broken|worn|used to|was|were|once|instead|never|too|means|si|ejemplo|ser[íi]a|podr[íi]a|rot[oa]s?|gastad[oa]s?|era|fue|nunca|demasiad[oa]|significa)\b/i;
const ordered = /\b(?:must|shall|has to|have to|should|debe|deben|tiene que)\b/i;

/** Whether the sentence says that the number is so, and not what it may be, by how much it changes, or of another thing. */
function isClaim({ passage: { source, role }, sentence, quantity }: Mention, { kind }: Stated): boolean {
  const text = source.value;
  const before = text.slice(sentence.start, quantity.start);
  const behind = text.slice(quantity.end, Math.max(quantity.end, sentence.end));
  if (role === 'name') return true;
  if (otherAfter.test(behind)) return false;
  const isOrder = ordered.test(before);
  if (!isOrder && (hedged.test(`${before}${behind}`) || otherBefore.test(before))) return false;
  if (isOrder && /\b(?:by|within|per|every|each|por|cada)\s+$/i.test(before)) return false;
  if ((kind === 'hold' || kind === 'wait') && role !== 'prose') return true;
  if (/\b(?:must|shall|has to|have to|should|debe|deben|tiene que)\b[^.,;]{0,25}$/i.test(before)) return true;
  return claims.test(before) || after.test(behind) || before.trim() === '' || role === 'heading';
}

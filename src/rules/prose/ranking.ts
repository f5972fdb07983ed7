// Which of the typed numbers of a procedure a sentence names, and how surely.

import { equals } from '../../calc/rational.js';
import type { Block } from '../text/blocks.js';
import type { Passage } from '../text/passages.js';
import type { NumberLanguage } from './languages/language.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { namedIn, nounsIn } from './naming.js';
import type { Quantity } from './quantities.js';
import type { Stated } from './stated.js';

/** A quantity in a text, and the part of its sentence where its name is looked for. */
export interface Mention {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly clause: Block;
  readonly sentence: Block;
}

/** A typed number with how surely it is named: 0 not, 1 perhaps, from `sure` on it is, the more words the higher. */
export interface Ranked {
  readonly stated: Stated;
  readonly score: number;
  /** The words that name it. */
  readonly by: ReadonlySet<string>;
}

/** What a naming must reach to be sure. */
export const sure = 2;

interface Words {
  readonly language: NumberLanguage;
  /** What the clause names, and what its words are as they stand. */
  readonly here: ReadonlySet<string>;
  readonly nouns: ReadonlySet<string>;
  /** What the whole sentence names. */
  readonly near: ReadonlySet<string>;
  /** What the heading, the step and the head of a table around it name. */
  readonly around: ReadonlySet<string>;
}

/** The numbers from the one that is named most surely to the one that is named least. */
export function rank(mention: Mention, numbers: readonly Stated[]): readonly Ranked[] {
  const { passage, clause, sentence } = mention;
  const language = numberLanguage(passage.language);
  const text = passage.source.value.slice(clause.start, clause.end);
  const whole = passage.source.value.slice(sentence.start, sentence.end);
  const above = [passage.section?.heading?.text, passage.step?.id.value, headOfTable(passage)];
  const words: Words = {
    language,
    here: namedIn(text, language),
    nouns: nounsIn(text, language),
    near: namedIn(whole, language),
    around: namedIn(above.join(' ').replaceAll(/[_-]/g, ' '), language),
  };
  return numbers
    .map((stated) => {
      const score = scoreOf(stated, { mention, words, numbers });
      const names = [...namesFor(stated, passage), ...stated.id];
      return { stated, score, by: new Set(names.filter((name) => words.here.has(name) || words.around.has(name))) };
    })
    .sort((a, b) => b.score - a.score);
}

interface Naming {
  readonly mention: Mention;
  readonly words: Words;
  readonly numbers: readonly Stated[];
}

function scoreOf(stated: Stated, { mention, words, numbers }: Naming): number {
  const { passage } = mention;
  const ofStep = passage.step !== undefined && stated.steps.has(passage.step.id.value);
  if (stated.kind === 'hold' || stated.kind === 'wait') return ofStep && speaksOf(stated, passage, words) ? 9 : 0;
  if (passage.role === 'name') return nameSays(mention, stated, words.language) ? sure : 0;
  if (stated.kind === 'state' && stated.path === passage.state) return 9;
  const byLabel = coverage(namesFor(stated, passage), words);
  // an id of one word, such as `work`, is a word like others
  const byId = stated.id.size > 1 && passage.language.startsWith('en') ? coverage(stated.id, words) : 0;
  const said = Math.max(byLabel, byId);
  const head = headFor(stated, passage);
  const named = said < sure && head !== undefined && isOfAnother(head, mention, words.language) ? 0 : said;
  const isNear = named > 0 && named < sure;
  const surer = isNear && (namesOwner(stated, words) || isHeadOf(stated, { mention, words, numbers })) ? 0.5 : 0;
  const told = isNear && isToldApart(stated, { mention, words, numbers }) ? sure : 0;
  const best = Math.max(named + surer, told);
  if (ofStep && passage.role !== 'prose') return Math.max(best, sure) + 1;
  const isNamed = best > 0 || (stated.kind === 'value' && isReading(mention, words.language));
  return ofStep && isNamed ? Math.max(best, sure) : best;
}

/** Whether the detail of a step says what is shown there: `The gauge shows 3000 psi`, `3000 psi is right`. */
function isReading({ passage: { source }, sentence, quantity }: Mention, language: NumberLanguage): boolean {
  const { shows, about, verdicts } = language;
  if (patternOf(verdicts, '^\\s*WORDS(?!\\p{L})').test(source.value.slice(quantity.end, sentence.end))) return true;
  const before = patternOf(about, '(?<!\\p{L})WORDS\\s+$').cut(source.value.slice(sentence.start, quantity.start));
  return patternOf(shows, '(?<!\\p{L})WORDS\\s+$').test(before);
}

/** How much of a name is said: from `sure` on enough of it. */
function coverage(names: ReadonlySet<string>, { here, around }: Words): number {
  const said = [...names].filter((name) => here.has(name)).length;
  const all = [...names].filter((name) => here.has(name) || around.has(name)).length;
  if (names.size === 0 || (said === 0 && all < names.size)) return 0;
  const head = [...names].at(-1) ?? '';
  if (all === names.size) return sure + all;
  if (all >= 2 && all * 5 >= names.size * 3) return sure;
  return said > 0 && (here.has(head) || all * 2 >= names.size) ? 1.5 : 1;
}

/** Whether the thing itself is named, and no other number of the kind is called so or the heading names it too. */
function isHeadOf(stated: Stated, { mention: { passage }, words, numbers }: Naming): boolean {
  const head = headFor(stated, passage);
  if (head === undefined || !words.nouns.has(head)) return false;
  // of a procedure's own values none can be meant that is called otherwise; a parameter must stand alone
  const rivals = numbers.filter((one) => !isOwn(stated) || isOwn(one));
  return words.around.has(head) || rivals.every((one) => one === stated || headFor(one, passage) !== head);
}

/** Whether the thing is that of something else: `the time between two tries`, where a time from the top is named. */
function isOfAnother(
  head: string,
  { passage: { source }, clause, quantity }: Mention,
  language: NumberLanguage,
): boolean {
  const text = source.value.slice(clause.start, Math.min(clause.end, quantity.start));
  const found = [...patternOf(language.ofWords, '(\\p{L}+)\\s+WORDS\\s+\\S').matchAll(text)];
  return found.some(({ 1: word = '' }) => nounsIn(word, language).has(head));
}

/** Whether all is said by which a value differs from the others of the procedure, and something that it shares with them. */
function isToldApart(stated: Stated, { mention: { passage }, words, numbers }: Naming): boolean {
  if (!isOwn(stated)) return false;
  const others = numbers.filter((one) => one !== stated && isOwn(one)).map((one) => namesFor(one, passage));
  const names = [...namesFor(stated, passage)];
  const shared = names.filter((name) => others.some((other) => other.has(name)));
  const own = names.filter((name) => !shared.includes(name));
  return own.length > 0 && own.every((name) => words.here.has(name)) && shared.some((name) => words.near.has(name));
}

function isOwn({ kind }: Stated): boolean {
  return kind === 'value' || kind === 'result';
}

function namesFor({ labels, id }: Stated, { language }: Passage): ReadonlySet<string> {
  return labels.get(language)?.words ?? (language.startsWith('en') ? id : new Set());
}

/** The thing itself in the name of a number, in the language of a text. */
export function headFor({ labels, id }: Stated, { language }: Passage): string | undefined {
  const label = labels.get(language);
  return label ? label.head : language.startsWith('en') ? [...id].at(-1) : undefined;
}

function headOfTable({ block, source }: Passage): string {
  return block.above ? source.value.slice(block.above.start, block.above.end) : '';
}

/** Whether the name of a machine or header gives a parameter: `35 ft` any size, `20 in rows` one that is called by rows. */
function nameSays(
  { passage: { source }, quantity }: Mention,
  { id, limits }: Stated,
  language: NumberLanguage,
): boolean {
  // things are named by their size, not by what they may read
  if (!limits.every(({ low, high }) => low && high && equals(low, high))) return false;
  const behind = /^[\s-]*(\p{L}+)/u.exec(source.value.slice(quantity.end))?.[1];
  if (behind !== undefined) return [...namedIn(behind, language)].some((word) => id.has(word));
  const before = source.value.slice(0, quantity.start).trim();
  const last = /\p{L}+$/u.exec(before)?.[0];
  return before === '' || /[,;(]$/.test(before) || (last !== undefined && language.ofWords.includes(last));
}

/** Whether the machine or header is named that a parameter, named by its last word at least, belongs to. */
function namesOwner({ kind, path, id }: Stated, { here, language }: Words): boolean {
  if (kind !== 'parameter' || !here.has([...id].at(-1) ?? '')) return false;
  const owner = path.startsWith('header.') ? language.owners.header : language.owners.machine;
  return [...namedIn(owner, language)].some((word) => here.has(word));
}

/** Whether a text speaks of the hold or wait of its step, and does not refer to it. */
function speaksOf({ kind }: Stated, { role, source, step }: Passage, { here, language }: Words): boolean {
  if (source.value.includes(`{${kind}}`)) return false;
  if (role === 'step' || role === 'card') return true;
  const orders = kind === 'hold' ? language.holds : language.waits;
  return (
    role === 'prose' && step !== undefined && [...namedIn(orders.join(' '), language)].some((one) => here.has(one))
  );
}

// Quantities that stand in words: `3.6 to 4.2 V`, `at least 12 ft`, `17 ft 5 in`, `0,5 V` in Spanish, `ten minutes`. What is
// not surely a quantity is left alone. Judges nothing.

import { add, compare, divide, fromDecimal, multiply, type Rational, rational, subtract } from '../../calc/rational.js';
import { asDifference, findUnit, scanUnit, toBase, type Unit } from '../../calc/unit.js';
import { unitsByOtherWords } from '../../calc/unit-table.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import type { Block } from '../text/blocks.js';
import type { NumberLanguage } from './languages/language.js';
import { numberLanguage, patternOf } from './languages/languages.js';

/** A quantity in a text; ends in base units. Of a single number both ends are it. */
export interface Quantity {
  readonly start: number;
  readonly end: number;
  readonly low: Rational;
  readonly high: Rational;
  readonly unit: Unit;
  /** Half of what its last digit counts, in base units: what it may be rounded by. */
  readonly slack: Rational;
  readonly form: 'single' | 'range';
  /** Written in digits, so that a reference may take its place. */
  readonly digits: boolean;
}

interface Part {
  readonly value: Rational;
  /** What the last digit counts. */
  readonly step: Rational;
  readonly unit?: Unit;
  readonly end: number;
  readonly digits: boolean;
}

const blanks = /[ \u00a0\u202f\u2009]*/y;
const digitsAt = /-?(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?)(?![\p{N}/:]|[.,]\d)/uy;
const fractionAt = /(?:(\d+)[ \u00a0])?(\d+)\/(\d+)(?![\p{N}/])/uy;
const determiners =
  /^[ \u00a0]+(?:the|a|an|this|that|these|those|each|every|one|all|both|its|your|our|their|which|front|between)\b/;

/** The quantities of a block, in their order. */
export function quantitiesOf(hidden: string, block: Block, code: string): readonly Quantity[] {
  const text = hidden.slice(0, block.end);
  const language = numberLanguage(code);
  const found: Quantity[] = [];
  for (const start of placesOf(text, block, language)) {
    if (start < (found.at(-1)?.end ?? 0)) continue;
    const quantity = quantityAt(text, start, language);
    if (quantity) found.push(quantity);
  }
  return found;
}

function placesOf(text: string, block: Block, language: NumberLanguage): readonly number[] {
  const part = text.slice(block.start);
  const digits = [...part.matchAll(/(?<![\p{L}\p{N}.,/_-])-?\d/gu)].map(({ index }) => index);
  const words = [...numberWords(language).all.matchAll(part)].map(({ index }) => index);
  const shares = [...shareWords(language).all.matchAll(part)].map(({ index }) => index);
  return [...new Set([...digits, ...words, ...shares])].sort((a, b) => a - b).map((index) => index + block.start);
}

function quantityAt(text: string, start: number, language: NumberLanguage): Quantity | undefined {
  const first = partAt(text, start, language);
  if (!first) return undefined;
  const joint = jointOf(language).exec(text.slice(first.end))?.[0];
  const second = joint === undefined ? undefined : partAt(text, first.end + joint.length, language);
  if (joint !== undefined && second?.unit && isRange(text.slice(0, start), joint.trim(), language)) {
    return rangeOf(start, [first, second], joint.includes('±') || joint.includes('+/-'));
  }
  return first.unit ? singleOf(start, first, first.unit) : undefined;
}

function jointOf({ joints, pairs }: NumberLanguage): Caseless {
  return patternOf(joints, `^[ \\u00a0]*(?:[–—±-]|\\+/-|WORDS|${[...pairs.keys()].join('|')})[ \\u00a0]*`);
}

/** `and` joins a range only behind `between`. */
function isRange(before: string, joint: string, { pairs }: NumberLanguage): boolean {
  const first = pairs.get(joint.toLowerCase());
  return first === undefined || caseless(`(?<!\\p{L})${first}\\s+$`).test(before);
}

function singleOf(start: number, part: Part, unit: Unit): Quantity {
  const value = toBase(part.value, unit);
  return {
    start,
    end: part.end,
    low: value,
    high: value,
    unit,
    slack: slackOf(part, unit),
    form: 'single',
    digits: part.digits,
  };
}

function rangeOf(start: number, [first, second]: readonly [Part, Part], around: boolean): Quantity | undefined {
  const unit = second.unit;
  if (!unit || (first.unit && !sameKind(first.unit, unit))) return undefined;
  const own = first.unit ?? unit;
  const middle = toBase(first.value, own);
  const width = toBase(second.value, around ? asDifference(unit) : unit);
  const [low, high] = around ? [subtract(middle, width), add(middle, width)] : [middle, width];
  if (compare(low, high) > 0) return undefined;
  const slack = slackOf(second, unit);
  return { start, end: second.end, low, high, unit, slack, form: 'range', digits: first.digits && second.digits };
}

function sameKind(a: Unit, b: Unit): boolean {
  return a.dimension.every((exponent, i) => exponent === b.dimension[i]);
}

function slackOf({ step }: Part, unit: Unit): Rational {
  return divide(multiply(step, unit.factor), rational(2));
}

function partAt(text: string, start: number, language: NumberLanguage): Part | undefined {
  const share = shareAt(text, start, language);
  if (share) return share;
  const number = numberAt(text, start, language);
  if (!number) return undefined;
  const unit = unitAt(text, number.end, language, number.digits);
  if (!unit) return number;
  const whole = { ...number, unit: unit.unit, end: unit.end };
  return unit.unit.symbol === 'ft' ? withInches(text, whole, language) : whole;
}

interface ShareWords {
  readonly all: Caseless;
  /** Each from its first word on, with its unit as `unit`, and the quarters of that; with a half more than `count` where it has one. */
  readonly each: readonly { readonly pattern: Caseless; readonly quarters: number }[];
}

const sharePatterns = new WeakMap<NumberLanguage, ShareWords>();

/** Finds what is said in halves and quarters of a unit: `half an hour`, `two and a half minutes`, `an hour and a half`. */
function shareWords(language: NumberLanguage): ShareWords {
  const known = sharePatterns.get(language);
  if (known) return known;
  const { shares, andHalf, numbers, ones } = language;
  const shapes = [...shares, [`COUNT ${andHalf} UNIT`, 2] as const, [`COUNT UNIT ${andHalf}`, 2] as const];
  const made = shapes.map(([shape, quarters]) => ({ text: shape.replaceAll(' ', '[ \\u00a0]+'), quarters }));
  const counts = [...numbers.keys(), ...ones].join('|');
  const fill = (text: string, names: { readonly count: string; readonly unit: string }): string =>
    text.replace('COUNT', `${names.count}${counts})`).replace('UNIT', `${names.unit}\\p{L}+)`);
  const end = '(?![\\p{L}\\p{N}-])';
  const any = made.map(({ text }) => fill(text, { count: '(?:', unit: '(?:' })).join('|');
  const words = {
    all: caseless(`(?<![\\p{L}\\p{N}-])(?:${any})${end}`),
    each: made.map(({ text, quarters }) => {
      const own = fill(text, { count: '(?<count>', unit: '(?<unit>' });
      return { pattern: caseless(`^(?:${own})${end}`), quarters };
    }),
  };
  sharePatterns.set(language, words);
  return words;
}

function shareAt(text: string, start: number, language: NumberLanguage): Part | undefined {
  if (!/\p{L}/u.test(text[start] ?? '')) return undefined;
  const rest = text.slice(start, start + 60);
  for (const { pattern, quarters } of shareWords(language).each) {
    const found = pattern.exec(rest);
    const unit = unitNamed(found?.groups?.unit ?? '', language);
    if (!found || !unit) continue;
    const count = found.groups?.count?.toLowerCase();
    const whole = count === undefined ? 0 : (language.numbers.get(count) ?? 1);
    const value = rational(4 * whole + quarters, 4);
    return { value, step: rational(1, quarters % 2 === 0 ? 2 : 4), unit, end: start + found[0].length, digits: false };
  }
  return undefined;
}

/** `17 ft 5 in` is one number. */
function withInches(text: string, feet: Part, language: NumberLanguage): Part {
  const rest = /^[ \u00a0](?=\d)/.exec(text.slice(feet.end));
  const inches = rest ? numberAt(text, feet.end + 1, language) : undefined;
  const unit = inches && unitAt(text, inches.end, language, true);
  if (!inches || !unit || unit.unit.symbol !== 'in') return feet;
  const value = add(multiply(feet.value, rational(12)), inches.value);
  return { value, step: inches.step, unit: unit.unit, end: unit.end, digits: true };
}

function numberAt(text: string, start: number, language: NumberLanguage): Part | undefined {
  fractionAt.lastIndex = start;
  const fraction = fractionAt.exec(text);
  if (fraction) {
    const [whole, , above = '0', below = '1'] = fraction;
    if (Number(below) === 0) return undefined;
    const step = rational(1, BigInt(below));
    const value = add(rational(BigInt(fraction[1] ?? '0')), multiply(rational(BigInt(above)), step));
    return { value, step, end: start + whole.length, digits: true };
  }
  digitsAt.lastIndex = start;
  const found = digitsAt.exec(text)?.[0];
  if (found !== undefined) return decimal(found, start, language);
  const word = numberWords(language).first.exec(text.slice(start))?.[0];
  const value = word === undefined ? undefined : language.numbers.get(word.toLowerCase());
  if (word === undefined || value === undefined) return undefined;
  return { value: rational(value), step: rational(1), end: start + word.length, digits: false };
}

interface NumberWords {
  readonly all: Caseless;
  readonly first: Caseless;
}

const numberPatterns = new WeakMap<NumberLanguage, NumberWords>();

/** Finds numbers in words, none behind a hyphen or before `and a half`; all of a text, or the one that it begins with. */
function numberWords(language: NumberLanguage): NumberWords {
  const known = numberPatterns.get(language);
  if (known) return known;
  const any = `(?:${[...language.numbers.keys()].join('|')})(?![\\p{L}\\p{N}-]| and a | y med)`;
  const made = { all: caseless(`(?<![\\p{L}\\p{N}-])${any}`), first: caseless(`^${any}`) };
  numberPatterns.set(language, made);
  return made;
}

/** A decimal comma in Spanish; commas between thousands in English. What may be either is none. */
function decimal(written: string, start: number, language: NumberLanguage): Part | undefined {
  const comma = language.decimalComma;
  if (comma ? /[.]\d{3}$/.test(written) || /,.*[.]/.test(written) : /,(?!\d{3}(?:[,.]|$))/.test(written)) {
    return undefined;
  }
  const plain = comma ? written.replace(',', '.') : written.replaceAll(',', '');
  const value = fromDecimal(plain);
  if (!value) return undefined;
  const decimals = plain.split('.')[1]?.length ?? 0;
  return { value, step: rational(1, 10n ** BigInt(decimals)), end: start + written.length, digits: true };
}

/** The unit behind a number: a symbol of the unit table, or what people say for it. `in the` is no inch. */
function unitAt(
  text: string,
  at: number,
  language: NumberLanguage,
  digits: boolean,
): { readonly unit: Unit; readonly end: number } | undefined {
  blanks.lastIndex = at;
  const gap = blanks.exec(text)?.[0].length ?? 0;
  const start = text[at] === '-' ? at + 1 : at + gap;
  const symbol = digits ? scanUnit(text, start) : undefined;
  if (symbol) {
    const isWord = symbol.unit.symbol === 'in' && determiners.test(text.slice(symbol.end));
    return isWord || /^[\p{L}\p{N}]/u.test(text.slice(symbol.end)) ? undefined : symbol;
  }
  const word = /^°?\p{L}+/u.exec(text.slice(start))?.[0];
  if (word === undefined) return undefined;
  const unit = unitNamed(word, language);
  return unit && { unit, end: start + word.length };
}

/** The unit that people mean by a word. */
function unitNamed(word: string, { units }: NumberLanguage): Unit | undefined {
  const plain = word.toLowerCase().replace('°', '');
  const isWord = word.startsWith('°') || plain.length > 1;
  const name = units.get(plain) ?? (isWord ? unitsByOtherWords.get(plain) : undefined);
  return name === undefined ? undefined : findUnit(name);
}

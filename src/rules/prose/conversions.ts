// A quantity said a second time in the other system of units: `0.38 in (9.7 mm)`, `9.7 mm / 0.38 in`. Judges nothing.

import {
  absolute,
  add,
  compare,
  divide,
  larger,
  multiply,
  type Rational,
  rational,
  subtract,
} from '../../calc/rational.js';
import { isConvertible } from '../../calc/unit.js';
import type { Passage } from '../text/passages.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { type Quantity, quantitiesOf } from './quantities.js';

/** By how much of itself a number may differ from its conversion: `75 mm` for 3 in. Common practice, no source. */
const rounding = rational(3, 100);
/** And by how much where the text says `about`. */
const roughly = rational(10, 100);
/** The same for temperatures, which have no share of themselves. */
const [degree, degrees] = [rational(1), rational(5)];

/** A quantity, and the same again in the other system. */
export interface Conversion {
  readonly first: Quantity;
  readonly second: Quantity;
  /** The text says `about` of one of them. */
  readonly isRough: boolean;
}

/** The conversions of a passage: the second stands alone in parentheses behind the first, or behind `/` or `=`. */
export function conversionsOf(passage: Passage): readonly Conversion[] {
  const { hidden, block, language } = passage;
  const all = quantitiesOf(hidden, block, language);
  return all.flatMap((first, i) => {
    const second = all[i + 1];
    if (!second || !isAgain(passage, first, second)) return [];
    const around = `${hidden.slice(0, first.start).trimEnd().slice(-20)} ${hidden.slice(first.end, second.start)}`;
    const isRough =
      /[≈~]/.test(around) || patternOf(numberLanguage(language).about, '(?<!\\p{L})WORDS(?!\\p{L})').test(around);
    return [{ first, second, isRough }];
  });
}

function isAgain({ hidden, language }: Passage, first: Quantity, second: Quantity): boolean {
  if (first.form !== second.form || !isConvertible(first.unit, second.unit)) return false;
  const systems = [first.unit.system, second.unit.system];
  if (!systems.includes('us') || !systems.includes('si')) return false;
  const between = hidden.slice(first.end, second.start);
  if (/^\s*[/=]\s*$/.test(between)) return true;
  const { about } = numberLanguage(language);
  return (
    patternOf(about, '^\\s*[([]\\s*(?:[=≈~]\\s*|WORDS\\s+)?$').test(between) &&
    /^\s*[)\]]/.test(hidden.slice(second.end))
  );
}

/** Whether both are one amount as far as they are rounded. */
export function isSameAmount(conversion: Conversion): boolean {
  const { first, second } = conversion;
  return agree(first.low, second.low, conversion) && agree(first.high, second.high, conversion);
}

/** Whether two ends are one number as far as they are rounded. */
function agree(a: Rational, b: Rational, { first, second, isRough }: Conversion): boolean {
  const part = multiply(larger(absolute(a), absolute(b)), isRough ? roughly : rounding);
  const share = first.unit.offset ? (isRough ? degrees : degree) : part;
  const slack = larger(first.slack, second.slack);
  return compare(absolute(subtract(a, b)), add(larger(share, slack), tiny(first))) <= 0;
}

/** Nothing worth a word: units whose factors are rounded agree in their last digit. */
function tiny({ slack }: Quantity): Rational {
  return divide(slack, rational(100));
}

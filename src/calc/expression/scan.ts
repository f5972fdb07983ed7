// Numbers, units and words at a place in a text: the parser's eyes. A fault is thrown here and caught where parsing began.

import type { Rational } from '../rational.js';
import { add, compare, divide, fromDecimal, maxExponent, multiply, one, rational, tenTo } from '../rational.js';
import type { Unit } from '../unit.js';
import { nearestUnits, noUnit, scanUnit, wordEnd } from '../unit.js';
import type { Expr, NumberExpr } from './ast.js';
import { fail } from './fault.js';
import { isKeyword } from './functions.js';

/** Where the parser stands. `calc` allows ranges in parentheses; `limits` says that a range is being read. */
export interface Cursor {
  readonly text: string;
  readonly calc: boolean;
  readonly isName?: ((path: string) => boolean) | undefined;
  readonly limits: boolean;
  /** Reads `± 0.2` or `to 4` inside parentheses, where that is allowed. */
  readonly readTail?: ((c: Cursor, first: Expr) => Expr | undefined) | undefined;
  at: number;
  depth: number;
  nodes: number;
}

/** The text with `start` to `end` replaced: a rewrite to offer. */
export function replaced(text: string, start: number, end: number, by: string): string {
  return text.slice(0, start) + by + text.slice(end);
}

/** The word at the place where the cursor stands, and its end. */
export function wordAt(c: Cursor, at: number): string {
  return c.text.slice(at, wordEnd(c.text, at));
}

const space = /[ \t\r\n\u00a0\u2009\u202f]*/y;

/** The place of the next character that is no space. */
export function skipSpaces(text: string, at: number): number {
  space.lastIndex = at;
  space.test(text);
  return space.lastIndex;
}

const decimalAt = /(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?(?![\d])/y;
const fractionAt = /(\d+)\/(\d+)(?![\d.])/y;

interface Digits {
  readonly value: Rational;
  readonly resolution: Rational;
  readonly end: number;
  readonly whole: boolean;
}

/** `3.60`, `1/8`, `3 1/8`: the number that begins at `at`. */
function scanDigits(text: string, at: number): Digits | undefined {
  const fraction = scanFraction(text, at);
  if (fraction) return fraction;
  decimalAt.lastIndex = at;
  const written = decimalAt.exec(text)?.[0];
  if (written === undefined) return undefined;
  const end = decimalAt.lastIndex;
  if (text[end] === '.') failDot(text, at, end);
  const value = fromDecimal(written);
  if (!value) {
    return fail({
      start: at,
      end,
      message: `\`${written}\` is beyond the numbers that can be used`,
      help: `Write a number between 1e-${maxExponent} and 1e${maxExponent}.`,
    });
  }
  const [mantissa = '', exponent = '0'] = written.toLowerCase().split('e');
  const resolution = tenTo(Number(exponent) - (mantissa.split('.')[1]?.length ?? 0));
  if (!/^\d+$/.test(written)) return { value, resolution, end, whole: false };
  const part = scanFraction(text, skipSpaces(text, end));
  if (!part || skipSpaces(text, end) === end) return { value, resolution, end, whole: true };
  if (compare(part.value, one) >= 0) {
    fail({
      start: at,
      end: part.end,
      message: `The fraction of \`${text.slice(at, part.end)}\` is not less than one`,
      help: 'Carry the whole part over, as in `4 1/8`.',
    });
  }
  return { value: add(value, part.value), resolution: part.resolution, end: part.end, whole: false };
}

function failDot(text: string, at: number, end: number): never {
  const dots = /^[.\d]+/.exec(text.slice(end))?.[0] ?? '.';
  const stop = end + dots.length;
  const written = text.slice(at, stop);
  if (dots === '.')
    return fail({
      start: end,
      end: stop,
      message: `\`${written}\` ends with a decimal point`,
      help: 'Leave the point out, or write the digits behind it.',
      rewrites: [replaced(text, end, stop, '')],
    });
  return fail({
    start: at,
    end: stop,
    message: `\`${written}\` has more than one decimal point`,
    help: 'Keep one point.',
  });
}

function scanFraction(text: string, at: number): Digits | undefined {
  fractionAt.lastIndex = at;
  const found = fractionAt.exec(text);
  if (!found) return undefined;
  const [above, below] = [BigInt(found[1] ?? 0), BigInt(found[2] ?? 0)];
  const end = fractionAt.lastIndex;
  if (below === 0n) fail({ start: at, end, message: `\`${found[0]}\` divides by zero` });
  return { value: rational(above, below), resolution: rational(1n, below), end, whole: false };
}

/** A number as written, with its unit or units; undefined where none begins. */
export function scanNumber(c: Cursor): NumberExpr | undefined {
  const start = c.at;
  const digits = scanDigits(c.text, start);
  if (!digits) return undefined;
  const unit = scanUnitOf(c, digits.end);
  if (!unit) {
    c.at = digits.end;
    return { kind: 'number', start, end: digits.end, value: digits.value, resolution: digits.resolution };
  }
  const more = digits.whole ? scanSmaller(c, unit.unit, unit.end) : undefined;
  if (!more) {
    refuseTightHyphen(c, start, unit);
    c.at = unit.end;
    return {
      kind: 'number',
      start,
      end: unit.end,
      value: digits.value,
      resolution: digits.resolution,
      unit: unit.unit,
    };
  }
  const ratio = divide(unit.unit.factor, more.unit.factor);
  if (compare(more.value, ratio) >= 0) {
    fail({
      start,
      end: more.end,
      message: `The second part of \`${c.text.slice(start, more.end)}\` is a whole \`${unit.unit.symbol}\` or more`,
      help: `Carry it over: less than ${ratio.num} ${more.unit.symbol} may stand behind \`${unit.unit.symbol}\`.`,
    });
  }
  c.at = more.end;
  refuseTightHyphen(c, start, more);
  const value = add(multiply(digits.value, ratio), more.value);
  const both: Unit = { ...more.unit, symbol: `${unit.unit.symbol} ${more.unit.symbol}`, over: unit.unit };
  return { kind: 'number', start, end: more.end, value, resolution: more.resolution, unit: both };
}

interface Smaller {
  readonly value: Rational;
  readonly resolution: Rational;
  readonly unit: Unit;
  readonly end: number;
}

/** The `5 in` of `17 ft 5 in`: a second number in a smaller unit of the same kind that divides the first. */
function scanSmaller(c: Cursor, larger: Unit, at: number): Smaller | undefined {
  const start = skipSpaces(c.text, at);
  const digits = start > at ? scanDigits(c.text, start) : undefined;
  if (!digits) return undefined;
  const found = scanUnit(c.text, skipSpaces(c.text, digits.end));
  const both = c.text.slice(start, found?.end ?? digits.end);
  if (!found) {
    const hint = larger.symbol === 'ft' ? [replaced(c.text, digits.end, digits.end, ' in')] : [];
    return fail({
      start,
      end: digits.end,
      message: `Nothing stands between \`${larger.symbol}\` and \`${both}\``,
      help: 'Write an operator between two numbers, or the unit of the second.',
      rewrites: hint,
    });
  }
  const { factor, dimension, offset } = found.unit;
  const ratio = divide(larger.factor, factor);
  const fits = dimension.every((exponent, i) => exponent === larger.dimension[i]) && ratio.den === 1n && ratio.num > 1n;
  if (!fits || offset || larger.offset || found.unit.pi !== larger.pi) {
    return fail({
      start,
      end: found.end,
      message: `Nothing stands between \`${larger.symbol}\` and \`${both}\``,
      help: 'Write an operator between two quantities.',
    });
  }
  return { value: digits.value, resolution: digits.resolution, unit: found.unit, end: found.end };
}

function scanUnitOf(c: Cursor, after: number): { unit: Unit; end: number } | undefined {
  const at = skipSpaces(c.text, after);
  const word = wordAt(c, at);
  if (word === '' || isKeyword(word)) {
    if (word === 'pi')
      fail({
        start: at,
        end: at + 2,
        message: 'Nothing stands between a number and `pi`',
        help: 'Write `*` between them.',
        rewrites: [replaced(c.text, after, at, ' * ')],
      });
    return undefined;
  }
  const found = scanUnit(c.text, at);
  if (found && c.text[found.end] === '.' && !/\d/.test(c.text[found.end + 1] ?? '')) {
    fail({
      start: found.end,
      end: found.end + 1,
      message: `A point stands behind the unit \`${found.unit.symbol}\``,
      help: 'Units have none.',
      rewrites: [replaced(c.text, found.end, found.end + 1, '')],
    });
  }
  if (found) return found;
  return failUnit(c, at, word);
}

function failUnit(c: Cursor, at: number, word: string): never {
  const end = at + word.length;
  const near = nearestUnits(word);
  const rewrites = near.map((unit) => replaced(c.text, at, end, c.text[at - 1]?.match(/\d/) ? ` ${unit}` : unit));
  if (near.length === 0 && c.isName?.(word)) {
    return fail({
      start: at,
      end,
      message: `\`${word}\` is a name, and nothing stands between it and the number`,
      help: 'Write `*` between them.',
      rewrites: [replaced(c.text, at, at, '* ')],
    });
  }
  const options = near.map((unit) => `\`${unit}\``).join(' or ');
  return fail({
    start: at,
    end,
    message: `\`${word}\` is no unit`,
    help: near.length > 0 ? `Write ${options}.` : 'A word behind a number is its unit; write `*` before a name.',
    rewrites,
  });
}

// `17 ft-5 in`: a hyphen that touches a unit may join or subtract
function refuseTightHyphen(c: Cursor, start: number, unit: { unit: Unit; end: number }): void {
  if (c.text[unit.end] !== '-') return;
  const at = unit.end;
  const next = skipSpaces(c.text, at + 1);
  const joined = replaced(c.text, at, next, ' ');
  const second = scanDigits(c.text, next);
  const secondUnit = second && scanUnit(c.text, skipSpaces(c.text, second.end));
  const ratio = secondUnit && divide(unit.unit.factor, secondUnit.unit.factor);
  const same = secondUnit?.unit.dimension.every((exponent, i) => exponent === unit.unit.dimension[i]);
  const rewrites: string[] = [];
  if (same && ratio && ratio.den === 1n && ratio.num > 1n) rewrites.push(joined);
  else if (second && c.limits) rewrites.push(replaced(c.text, at, next, ' to '));
  rewrites.push(replaced(c.text, at, next, ' - '));
  const end = secondUnit?.end ?? second?.end ?? at + 1;
  fail({
    start,
    end,
    message: `The hyphen in \`${c.text.slice(start, end)}\` may join or subtract`,
    help: `Write ${rewrites.map((rewrite) => `\`${rewrite}\``).join(' or ')}.`,
    rewrites,
  });
}

const twoSidedAt = /\+\s*(?:\d+(?:\.\d+)?|\.\d+)[^+/(),*^]*\/\s*-\s*[\d.]/y;

/** Whether `+0.3/-0.1` begins at `at`. */
export function isTwoSidedAhead(text: string, at: number): boolean {
  twoSidedAt.lastIndex = at;
  return twoSidedAt.test(text);
}

/** A number's unit, or that of a bare number. */
export function unitOf(number: NumberExpr): Unit {
  return number.unit ?? noUnit;
}

// A number as a person types it into the phone: with comma or point, a fraction, feet and inches, the unit or not.

import { toBase } from '../../../src/calc/conversion.js';
import { add, divide, fromDecimal, multiply, negate, type Rational, rational } from '../../../src/calc/rational.js';
import type { Unit } from '../../../src/calc/unit-type.js';

export interface TypedNumber {
  /** In base units. */
  readonly base: Rational;
  /** The digits with a point, as they are kept. */
  readonly text: string;
}

const decimal = /^\d+(?:\.\d*)?$|^\.\d+$/;
const mixed = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;
const feetAndInches = /^(\d+)(?: ?(?:ft|'|′))[ -]?(?:(.+?) ?(?:in|"|″)?)?$/;

/** Undefined where the text is no number. */
export function readTyped(typed: string, unit: Unit): TypedNumber | undefined {
  const text = typed
    .trim()
    .replaceAll(/[\u00a0\u202f\s]+/g, ' ')
    .replaceAll('\u2212', '-');
  const isNegative = text.startsWith('-');
  const bare = withoutUnit(text.replace(/^[-+] ?/, ''), unit);
  const amount = unit.over ? readLong(bare, unit) : readPlain(bare);
  if (!amount) return undefined;
  const signed = isNegative ? negate(amount) : amount;
  return { base: toBase(signed, unit), text: `${isNegative ? '-' : ''}${bare.replace(',', '.')}` };
}

function withoutUnit(text: string, { symbol, over }: Unit): string {
  if (over || symbol === '') return text;
  const end = text.toLowerCase().endsWith(symbol.toLowerCase()) ? text.slice(0, -symbol.length).trimEnd() : text;
  return end === '' ? text : end;
}

// one comma is a decimal comma; a comma before three digits could as well part thousands, and is not guessed
function readPlain(text: string): Rational | undefined {
  const pointed = /^\d*,\d*$/.test(text) && !/^[1-9]\d{0,2},\d{3}$/.test(text) ? text.replace(',', '.') : text;
  if (decimal.test(pointed)) return fromDecimal(pointed.replace(/^\./, '0.').replace(/\.$/, ''));
  const [, whole = '0', top = '', bottom = ''] = mixed.exec(pointed) ?? [];
  if (top === '' || Number(bottom) === 0) return undefined;
  return add(rational(BigInt(whole)), divide(rational(BigInt(top)), rational(BigInt(bottom))));
}

// feet and inches; a number alone counts in inches
function readLong(text: string, unit: Unit): Rational | undefined {
  const [, feet, inches] = feetAndInches.exec(text) ?? [];
  if (feet === undefined || !unit.over) return readPlain(text.replace(/ ?(?:in|"|″)$/, ''));
  const rest = inches === undefined ? rational(0) : readPlain(inches);
  return rest && add(multiply(rational(BigInt(feet)), divide(unit.over.factor, unit.factor)), rest);
}

/** Whether a comma was typed that could part thousands as well as decimals. */
export function isAmbiguous(typed: string): boolean {
  return /^[-+]?[1-9]\d{0,2},\d{3}\b/.test(typed.trim());
}

// A reading as a person types it into the phone: with comma or point, a fraction, feet and inches, the unit or not.

import { toBase } from './conversion.js';
import { add, divide, multiply, negate, type Rational, rational } from './rational.js';
import { plainSigns, readTypedNumber } from './typed-number.js';
import type { Unit } from './unit-type.js';

export interface TypedNumber {
  /** In base units. */
  readonly base: Rational;
  /** The digits with a point, as they are kept. */
  readonly text: string;
}

const feetAndInches = /^(\d+)(?: ?(?:ft|'|′))[ -]?(?:(.+?) ?(?:in|"|″)?)?$/;

/** Undefined where the text is no number. */
export function readTyped(typed: string, unit: Unit): TypedNumber | undefined {
  const text = plainSigns(typed);
  const isNegative = text.startsWith('-');
  const bare = withoutUnit(text.replace(/^[-+] ?/, ''), unit);
  // one sign, in front of the whole
  if (/^[-+]/.test(bare)) return undefined;
  const amount = unit.over ? readLong(bare, unit) : readTypedNumber(bare);
  if (!amount) return undefined;
  const signed = isNegative ? negate(amount) : amount;
  return { base: toBase(signed, unit), text: `${isNegative ? '-' : ''}${bare.replace(',', '.')}` };
}

function withoutUnit(text: string, { symbol, over }: Unit): string {
  if (over || symbol === '') return text;
  const end = text.toLowerCase().endsWith(symbol.toLowerCase()) ? text.slice(0, -symbol.length).trimEnd() : text;
  return end === '' ? text : end;
}

// feet and inches; a number alone counts in inches
function readLong(text: string, unit: Unit): Rational | undefined {
  const [, feet, inches] = feetAndInches.exec(text) ?? [];
  if (feet === undefined || !unit.over) return readTypedNumber(text.replace(/ ?(?:in|"|″)$/, ''));
  const rest = inches === undefined ? rational(0) : readTypedNumber(inches);
  return rest && add(multiply(rational(BigInt(feet)), divide(unit.over.factor, unit.factor)), rest);
}

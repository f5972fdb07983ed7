// Numbers as people type them into a form: `20`, `3 1/8`, `3,6`, `20 ± 0.25`, `20 ± 2 %`. The unit stands beside the field.

import { toBase } from '../conversion.js';
import type { Enclosure } from '../rational.js';
import { absolute, add, multiply, rational, sign, subtract } from '../rational.js';
import { readTypedNumber } from '../typed-number.js';
import type { Unit } from '../unit-type.js';

/**
 * The range of base values that a text stands for in a unit. Undefined for anything else: letters, a comma that may part
 * thousands as well as decimals (`1,250`), a tolerance below zero.
 */
export function readNumber(text: string, unit: Unit): Enclosure | undefined {
  const [, number = '', tolerance, percent] = /^([^±%]*)(?:±\s*([^±%]*?)\s*(%)?)?$/u.exec(ownUnit(text, unit)) ?? [];
  const middle = readTypedNumber(number);
  if (!middle) return undefined;
  if (tolerance === undefined) return { low: toBase(middle, unit), high: toBase(middle, unit) };
  const size = readTypedNumber(tolerance);
  if (!size || sign(size) < 0) return undefined;
  const spread = percent === undefined ? size : multiply(multiply(size, absolute(middle)), rational(1, 100));
  return { low: toBase(subtract(middle, spread), unit), high: toBase(add(middle, spread), unit) };
}

// the unit of the field may be typed again; `15 ± 0.5 %` in per cent is in points
function ownUnit(text: string, { symbol }: Unit): string {
  const plain = text.trim().replace('+/-', '±');
  return symbol !== '' && plain.endsWith(symbol) ? plain.slice(0, -symbol.length).trimEnd() : plain;
}

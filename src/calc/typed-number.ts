// A number as a person types it on a phone or at a desk: with comma or point, or as a fraction. Units are not read here.

import { add, divide, fromDecimal, negate, type Rational, rational } from './rational.js';

/** Longer texts are no number that anyone read off anything. */
const mostSigns = 40;

const decimal = /^(?:\d+(?:\.\d*)?|\.\d+)$/;
const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;

/**
 * `3.62`, `3,62`, `.5`, `-0,25`, `3 1/8`, `3-1/8`; any minus sign, any blanks. Undefined for anything else, and for a comma
 * that may part thousands as well as decimals (`1,234`): see `isAmbiguous`.
 */
export function readTypedNumber(typed: string): Rational | undefined {
  const text = plainSigns(typed);
  if (text.length > mostSigns || isAmbiguous(text)) return undefined;
  const size = readSize(text.replace(/^[-+] ?/, ''));
  return size && text.startsWith('-') ? negate(size) : size;
}

/** Whether a comma stands before three last digits: `1,234` is a thousand for some and a little over one for others. */
export function isAmbiguous(typed: string): boolean {
  return /^[-+]? ?[1-9]\d{0,2},\d{3}$/.test(plainSigns(typed));
}

/** Blanks and minus signs as a keyboard has them. */
export function plainSigns(typed: string): string {
  return typed
    .trim()
    .replaceAll(/[\u00a0\u202f\s]+/g, ' ')
    .replaceAll('\u2212', '-');
}

function readSize(text: string): Rational | undefined {
  const pointed = /^\d*,\d*$/.test(text) ? text.replace(',', '.') : text;
  if (decimal.test(pointed)) return fromDecimal(pointed.replace(/^\./, '0.').replace(/\.$/, ''));
  const [, whole = '0', above = '', below = ''] = fraction.exec(pointed) ?? [];
  if (above === '' || BigInt(below) === 0n) return undefined;
  return add(rational(BigInt(whole)), divide(rational(BigInt(above)), rational(BigInt(below))));
}

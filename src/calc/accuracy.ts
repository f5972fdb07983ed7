// Accuracy specifications of instruments as they are written: `0.5 % + 2 digits`, `± 0.02 V`. What they mean for a reading
// stands in instrument.ts.

import { asDifference, noUnit, toBase } from './conversion.js';
import { isDimensionless } from './dimension.js';
import type { Parsed } from './expression/ast.js';
import { catchFault, fail } from './expression/fault.js';
import { parseQuantity } from './expression/parse.js';
import type { Accuracy } from './instrument.js';
import { add, fromDecimal, multiply, rational, sign, zero } from './rational.js';

export type { Accuracy, Instrument } from './instrument.js';
export { expandedUncertainty, isExactInstrument, largestError } from './instrument.js';

const none: Accuracy = { ofReading: zero, ofRange: zero, digits: zero, constant: zero };

/**
 * Reads `0.5 % + 2 digits`, `0.2 % of range`, `± 0.02 V`, `± (0.5 % of reading + 1 digit)`. A bare `p %` is of the reading,
 * but `± p %` of an instrument that reads a `ratio` is in points, as `± q` is of any other.
 */
export function parseAccuracy(text: string, options: { readonly ratio?: boolean } = {}): Parsed<Accuracy> {
  return catchFault(() => {
    const outer = /^(\s*(?:±|\+\/-)?\s*\(?)(.*?)(\)?\s*)$/su.exec(text);
    const [, before = '', body = ''] = outer ?? [];
    const signed = /±|\+\/-/.test(before);
    let at = before.length;
    let result = none;
    if (body.trim() === '')
      fail({
        start: 0,
        end: text.length,
        message: 'The accuracy is empty',
        help: 'Write it as in `0.5 % + 2 digits` or `± 0.02 V`.',
      });
    for (const piece of body.split('+')) {
      const start = at + piece.length - piece.trimStart().length;
      result = addPart(result, { text: piece.trim(), start, points: signed && options.ratio === true });
      at += piece.length + 1;
    }
    return result;
  });
}

interface Part {
  readonly text: string;
  readonly start: number;
  readonly points: boolean;
}

const shareAt = /^(\d+(?:\.\d+)?|\.\d+)\s*(%|ppm)(?:\s+of\s+(?:the\s+)?(reading|range))?$/;
const digitsAt = /^(\d+(?:\.\d+)?)\s*digits?$/;

function addPart(so: Accuracy, part: Part): Accuracy {
  const end = part.start + part.text.length;
  const digits = digitsAt.exec(part.text);
  if (digits) return { ...so, digits: add(so.digits, fromDecimal(digits[1] ?? '') ?? zero) };
  const share = shareAt.exec(part.text);
  if (share) {
    const [, number = '', unit, of] = share;
    const value = multiply(fromDecimal(number) ?? zero, unit === '%' ? rational(1, 100) : rational(1, 1_000_000));
    if (of === 'range') return { ...so, ofRange: add(so.ofRange, value) };
    if (of === 'reading' || !part.points) return { ...so, ofReading: add(so.ofReading, value) };
    return { ...so, constant: add(so.constant, value), dimension: noUnit.dimension };
  }
  const words = /^\S+\s*(?:%|ppm)?\s*(?:of\s+)?(?:full\s*scale|fs|f\.s\.|rdg|span|counts?|dgts?)\b/i.exec(part.text);
  if (words)
    fail({
      start: part.start,
      end,
      message: `\`${part.text}\` is no part of an accuracy`,
      help: 'Write `% of reading`, `% of range`, `digits` or a quantity with its unit.',
    });
  const quantity = parseQuantity(part.text);
  if (!quantity.ok)
    return fail({ ...quantity.fault, start: part.start + quantity.fault.start, end: part.start + quantity.fault.end });
  const { value } = quantity;
  const unit = asDifference(value.unit ?? noUnit);
  if (sign(value.value) < 0)
    fail({
      start: part.start,
      end,
      message: 'An accuracy is not negative',
      help: 'Write it without a sign, or with `±`.',
    });
  if (isDimensionless(unit.dimension) && unit.symbol === '') {
    fail({
      start: part.start,
      end,
      message: `\`${part.text}\` has no unit`,
      help: 'Write the unit, `%` or `digits` behind it.',
    });
  }
  const base = toBase(value.value, unit);
  return { ...so, constant: add(so.constant, base), dimension: unit.dimension };
}

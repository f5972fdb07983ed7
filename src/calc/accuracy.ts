// Accuracy specifications of instruments, and what they say of one reading: the largest error e, u = e / sqrt 3 with the
// resolution r adding r / sqrt 12 in quadrature unless digits are counted (JCGM 100, 4.3.7), and U = 2 u.

import type { Dimension } from './dimension.js';
import { isDimensionless } from './dimension.js';
import { root } from './elementary.js';
import type { Parsed } from './expression/ast.js';
import { catchFault } from './expression/evaluate.js';
import { parseQuantity } from './expression/parse.js';
import { fail } from './expression/scan.js';
import type { Enclosure, Rational } from './rational.js';
import { absolute, add, fromDecimal, larger, multiply, rational, sign, subtract, zero } from './rational.js';
import type { Unit } from './unit.js';
import { asDifference, noUnit, toBase } from './unit.js';

/** `p % of reading + q % of range + n digits ± c`: every part that is not written is zero. `constant` in base units. */
export interface Accuracy {
  readonly ofReading: Rational;
  readonly ofRange: Rational;
  readonly digits: Rational;
  readonly constant: Rational;
  /** Of `constant`, where one is written. */
  readonly dimension?: Dimension;
}

/** What a reading is taken with; numbers in base units. */
export interface Instrument {
  readonly accuracy: Accuracy;
  /** The smallest change that it shows. */
  readonly resolution?: Rational;
  readonly range?: Enclosure;
  /** The unit that it shows: readings are multiples of the resolution from this unit's zero. */
  readonly unit?: Unit;
}

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

/** Whether nothing is known of an instrument's error: no part is written. */
export function isExactInstrument(instrument: Instrument): boolean {
  const { ofReading, ofRange, digits, constant } = instrument.accuracy;
  return [ofReading, ofRange, digits, constant].every((part) => sign(part) === 0);
}

/** Each part of the largest error at a reading, in base units. */
export function errorParts(instrument: Instrument, reading: Rational): readonly Rational[] {
  const { accuracy, range, resolution, unit } = instrument;
  const shown = unit?.offset ? subtract(reading, unit.offset) : reading;
  // the larger of span and full scale: what `of range` means differs from maker to maker
  const scale = range
    ? larger(subtract(range.high, range.low), larger(absolute(range.high), absolute(range.low)))
    : zero;
  const span = range && unit?.offset ? subtract(range.high, range.low) : scale;
  return [
    multiply(accuracy.ofReading, absolute(shown)),
    multiply(accuracy.ofRange, span),
    multiply(accuracy.digits, resolution ?? zero),
    accuracy.constant,
  ];
}

/** The largest error e at a reading, in base units. */
export function largestError(instrument: Instrument, reading: Rational): Rational {
  return errorParts(instrument, reading).reduce(add);
}

/** U^2 = (4 e^2 + r^2) / 3 at a reading, exact; r = 0 where digits are counted. */
export function squaredUncertainty(instrument: Instrument, reading: Rational): Rational {
  const error = largestError(instrument, reading);
  const step = countsResolution(instrument) ? (instrument.resolution ?? zero) : zero;
  return multiply(add(multiply(rational(4), multiply(error, error)), multiply(step, step)), rational(1, 3));
}

/** Whether the resolution adds to the uncertainty: it does unless the accuracy counts digits. */
export function countsResolution(instrument: Instrument): boolean {
  return sign(instrument.accuracy.digits) === 0;
}

/** U = 2u of one reading, rounded up (beyond the sixtieth digit). */
export function expandedUncertainty(instrument: Instrument, reading: Rational): Rational {
  return root(squaredUncertainty(instrument, reading)).high;
}

// A reading of a record as an exact number: its digits in its unit, and the limits that decided.

import { isConvertible, noUnit, toBase } from '../../calc/conversion.js';
import { fromDecimal, type Rational } from '../../calc/rational.js';
import { readTyped } from '../../calc/typed-reading.js';
import { findUnit, type Unit } from '../../calc/unit.js';
import type { RecordReading } from '../../model/job-record.js';

/** Numbers in base units, without the unit's power of pi. */
export interface ReadNumber {
  readonly unit: Unit;
  readonly base: Rational;
  readonly low?: Rational;
  readonly high?: Rational;
}

/** The numbers of a reading; undefined where its text is no number or its unit none that is known. */
export function readingNumber({ text, unit, low, high }: RecordReading): ReadNumber | undefined {
  const known = readingUnit(unit);
  const typed = known && readTyped(text, known);
  if (!known || !typed) return undefined;
  const end = (digits: string | undefined): Rational | undefined => {
    const exact = digits === undefined ? undefined : fromDecimal(digits);
    return exact && toBase(exact, known);
  };
  const [lowest, highest] = [end(low), end(high)];
  return { unit: known, base: typed.base, ...(lowest && { low: lowest }), ...(highest && { high: highest }) };
}

/** The unit of a reading by its symbol: empty for a count or a ratio; `ft in` is inches written with feet. */
export function readingUnit(symbol: string): Unit | undefined {
  if (symbol === '') return noUnit;
  const found = findUnit(symbol);
  if (found) return found;
  const [long = '', short = '', ...more] = symbol.split(' ');
  const [over, unit] = [findUnit(long), findUnit(short)];
  return over && unit && more.length === 0 && isConvertible(over, unit) ? { ...unit, symbol, over } : undefined;
}

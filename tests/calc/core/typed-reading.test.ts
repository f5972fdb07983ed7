// Numbers as people type them on a phone.

import { describe, expect, it, test } from 'vitest';
import { fromDecimal, type Rational, rational } from '../../../src/calc/rational.js';
import { isAmbiguous } from '../../../src/calc/typed-number.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import { findUnit, type Unit } from '../../../src/calc/unit.js';

function unit(symbol: string): Unit {
  const found = findUnit(symbol);
  if (!found) throw new Error(symbol);
  return found;
}

const volt = unit('V');
const base = (text: string, of = volt): Rational | undefined => readTyped(text, of)?.base;

describe('a typed number', () => {
  test.each([
    ['3.62', '3.62'],
    ['3,62', '3.62'],
    [' 3.62 ', '3.62'],
    ['3.62 V', '3.62'],
    ['3.62V', '3.62'],
    ['3,62 v', '3.62'],
    ['.5', '0.5'],
    ['5.', '5'],
    ['-0,25', '-0.25'],
    ['\u22120.25', '-0.25'],
    ['+4', '4'],
    ['1,5', '1.5'],
    ['0,125', '0.125'],
    ['1234,5', '1234.5'],
  ])('%s is %s', (typed, number) => expect(base(typed)).toEqual(fromDecimal(number)));

  test.each(['', 'V', 'about 3', '3.6.2', '3 62', '1e3', '3..6', '--3', '1/0', '∞', 'NaN', '9'.repeat(41), '- '])(
    '%s is none',
    (typed) => expect(base(typed)).toBeUndefined(),
  );

  it('is not guessed where a comma may part thousands', () => {
    expect(base('1,234')).toBeUndefined();
    expect(isAmbiguous('1,234')).toBe(true);
    expect(isAmbiguous('1,23')).toBe(false);
    expect(isAmbiguous('0,234')).toBe(false);
  });

  it('may have a fraction', () => {
    const inch = unit('in');
    const eighth = (count: bigint): Rational => rational(count * 127n, 8n * 5000n);
    expect(base('3 1/8', inch)).toEqual(eighth(25n));
    expect(base('3-1/8 in', inch)).toEqual(eighth(25n));
    expect(base('7/8', inch)).toEqual(eighth(7n));
  });

  it('may be feet and inches, where the book reads so', () => {
    const long: Unit = { ...unit('in'), over: unit('ft') };
    const inches = (count: bigint): Rational => rational(count * 127n, 5000n);
    for (const typed of ['17 ft 5 in', '17\' 5"', '17ft 5in', '17 ft 5', '209', '209 in'])
      expect(base(typed, long), typed).toEqual(inches(209n));
    expect(base('17 ft', long)).toEqual(inches(204n));
    expect(base('-1 ft 6 in', long)).toEqual(inches(-18n));
  });

  it('is kept with a point', () => {
    expect(readTyped('3,62', volt)?.text).toBe('3.62');
    expect(readTyped('-0,5 V', volt)?.text).toBe('-0.5');
  });
});

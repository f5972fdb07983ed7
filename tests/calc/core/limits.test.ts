// Limits worked out for a rig, and their texts: tables, and what is printed read back.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatBoth,
  formatEnclosure,
  formatLimits,
  formatQuantity,
  likeResolution,
  limitsIn,
} from '../../../src/calc/display.js';
import { parseLimits } from '../../../src/calc/expression/parse.js';
import type { Limits } from '../../../src/calc/limits.js';
import { holdsWithin, isSingle, liesWithin, toleranceOf } from '../../../src/calc/limits.js';
import { compare, rational, tenTo } from '../../../src/calc/rational.js';
import { resolveLimits } from '../../../src/calc/resolve-limits.js';
import { fromBase, isConvertible } from '../../../src/calc/unit.js';
import { simpleUnits } from '../../../src/calc/unit-table.js';
import { limits, limitsExpr, number, range, right, settings, show, unit, wrong } from './reading.js';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const ends = (of: Limits): readonly string[] =>
  [of.low, of.high].map((end) => (end ? show(fromBase(end, of.unit)) : 'none'));

describe('limits worked out', () => {
  const rig = {
    supply: '5.0 ± 0.1 V',
    width: '20 ft',
    band: '0.25 to 4.75 V',
    floor: 'at least 2 V',
    moisture: '15 %',
    spacing: '20 in',
    rows: '12',
  };
  test.each([
    ['3.6 to 4.2 V', '18/5', '21/5', 'V', '1/10'],
    ['0.9 ± 0.2 V', '7/10', '11/10', 'V', '1/10'],
    ['0.9 +0.3/-0.1 V', '4/5', '6/5', 'V', '1/10'],
    ['5.0 ± 0.05 V', '99/20', '101/20', 'V', '1/100'],
    // a percentage is of the nominal, or points where the nominal is in percent
    ['20 ft ± 2 %', '98/5', '102/5', 'ft', '1/10'],
    ['width ± 2 %', '98/5', '102/5', 'ft', '1/10'],
    ['20 % ± 2 %', '18', '22', '%', '1'],
    ['moisture ± 1 %', '14', '16', '%', '1'],
    ['-20 ft ± 10 %', '-22', '-18', 'ft', '1'],
    ['at least 2.5 V', '5/2', 'none', 'V', '1/10'],
    ['at most 3 %', 'none', '3', '%', '1'],
    // an end that is itself a range counts at its narrowing side
    ['0.72 * supply to 0.84 * supply', '459/125', '1029/250', 'V', '1/100'],
    ['at least supply', '51/10', 'none', 'V', '1/10'],
    ['at most supply', 'none', '49/10', 'V', '1/10'],
    // one name, one number, one expression
    ['supply', '49/10', '51/10', 'V', '1/10'],
    ['floor', '2', 'none', 'V', '1'],
    ['width', '20', '20', 'ft', '1'],
    ['12', '12', '12', '', '1'],
    ['rows * spacing', '240', '240', 'in', '1'],
    ['width - 1 ft', '19', '19', 'ft', '1'],
    ['2 * supply', '49/5', '51/5', 'V', '1/10'],
    ['3 in to 1 ft', '1/4', '1', 'ft', '1/100'],
    ['-40 to 100 degF', '-40', '100', 'degF', '1'],
    ['20 degC ± 2 degC', '18', '22', 'degC', '1'],
    ['68 degF ± 9 degF', '59', '77', 'degF', '1'],
    ['-12 to 12 deg', '-12', '12', 'deg', '1'],
    ['1/8 to 1/4 in', '1/8', '1/4', 'in', '1/8'],
    ['17 ft 5 in to 18 ft', '209/12', '18', 'ft', '1/100'],
  ])('%s', (text, low, high, symbol, resolution) => {
    const of = limits(text, rig);
    expect([...ends(of), of.unit.symbol, show(of.resolution)]).toEqual([low, high, symbol, resolution]);
  });

  test('the nominal is kept where one is written', () => {
    expect(show(limits('0.9 +0.3/-0.1 V').nominal)).toBe('9/10');
    expect(show(limits('supply', rig).nominal)).toBe('5');
    expect(limits('3.6 to 4.2 V').nominal).toBeUndefined();
    expect(show(limits('12').nominal)).toBe('12');
  });

  test('an angle in rad comes back from its fraction of a turn', () => {
    const of = limits('at least 1.00 rad');
    expect(plain(formatLimits(of))).toBe('at least 1.00 rad');
    expect(plain(formatLimits(limits('0.5 ± 0.1 rad')))).toBe('0.4 to 0.6 rad');
    expect(plain(formatLimits(limits('1.5 rad')))).toBe('1.5 rad');
  });

  test('limits of a temperature difference have no zero point', () => {
    const of = right(resolveLimits(limitsExpr('at most 9 degF'), () => undefined, { temperature: 'difference' }));
    expect(show(of.high)).toBe('5');
    expect(plain(formatBoth(of, 'us'))).toBe('at most 9 degF (at most 5.0 degC)');
  });

  test.each([
    ['4.2 to 3.6 V', '4.2 to 3.6 V', /low end lies above/],
    ['0.9 supply to 5 V', 'supply', /no unit/],
    ['0.99 * supply to 1.01 * supply', '0.99 * supply to 1.01 * supply', /low end lies above/],
    ['missing', 'missing', /no value/],
    ['2 * floor to 9 V', 'floor', /one limit only/],
    ['5 V ± -1 V', '-1 V', /negative/],
    ['1 V / 0 to 2 V', '0', /zero/],
  ])('%s is refused', (text, marked, message) => {
    const known = new Map(Object.entries(rig).map(([name, value]) => [name, limits(value)]));
    const parsed = parseLimits(text);
    const fault = parsed.ok ? wrong(resolveLimits(parsed.value, (path) => known.get(path))) : parsed.fault;
    expect(text.slice(fault.start, fault.end)).toBe(marked);
    expect(fault.message).toMatch(message);
  });

  test('what lies within what', () => {
    expect(liesWithin(limits('1 to 2 V'), limits('1 to 2 V'))).toBe(true);
    expect(liesWithin(limits('1 to 2 V'), limits('at least 1 V'))).toBe(true);
    expect(liesWithin(limits('at least 1 V'), limits('1 to 2 V'))).toBe(false);
    expect(liesWithin(limits('0.99 to 2 V'), limits('1 to 2 V'))).toBe(false);
    expect(holdsWithin(limits('1 to 2 V'), number('2'))).toBe(true);
    expect(holdsWithin(limits('1 to 2 V'), number('2.0000001'))).toBe(false);
    expect(isSingle(limits('12'))).toBe(true);
    expect(show(toleranceOf(limits('3.6 to 4.2 V')))).toBe('3/5');
    expect(toleranceOf(limits('at least 1 V'))).toBeUndefined();
  });
});

describe('texts', () => {
  test.each([
    ['3.6 to 4.2 V', '3.6 to 4.2 V'],
    ['3.60 to 4.20 V', '3.60 to 4.20 V'],
    ['0.9 ± 0.2 V', '0.7 to 1.1 V'],
    ['at least 2.5 V', 'at least 2.5 V'],
    ['at most 3 %', 'at most 3 %'],
    ['20 ft', '20 ft'],
    ['12', '12'],
    ['17 ft 5 in', '17 ft 5 in'],
    ['3 1/8 in', '3 1/8 in'],
    ['1/8 to 1/4 in', '1/8 to 1/4 in'],
    ['17 ft 5 in ± 1 in', '17 ft 4 in to 17 ft 6 in'],
    ['-12 to 12 deg', '-12 to 12 deg'],
    ['0 to 120000 lb', '0 to 120000 lb'],
    ['3 sq ft', '3 sq ft'],
    ['20 ft ± 2 %', '19.6 to 20.4 ft'],
    ['-0.5 to 0.5 V', '-0.5 to 0.5 V'],
  ])('%s is shown as %s', (text, shown) => {
    expect(plain(formatLimits(limits(text)))).toBe(shown);
  });

  test('no line breaks between a number and its unit', () => {
    expect(formatLimits(limits('3.6 to 4.2 V'))).toBe('3.6 to 4.2\u00a0V');
    expect(formatLimits(limits('17 ft 5 in'))).toBe('17\u00a0ft\u00a05\u00a0in');
    expect(formatLimits(limits('3 sq ft'))).toBe('3\u00a0sq\u00a0ft');
  });

  test.each([
    ['20 ft', 'us', '20 ft (6.096 m)'],
    ['20 ft', 'si', '6.096 m (20 ft)'],
    ['30 in', 'us', '30 in (762 mm)'],
    ['56 lb/bu', 'us', '56 lb/bu'],
    ['3.6 to 4.2 V', 'us', '3.6 to 4.2 V'],
    ['at least 100 degF', 'us', 'at least 100 degF (at least 37.8 degC)'],
    ['28 to 32 psi', 'us', '28 to 32 psi (194 to 220 kPa)'],
    ['5 mph', 'us', '5 mph (8.0 km/h)'],
    ['100 to 110 lb-ft', 'us', '100 to 110 lb·ft (136 to 149 N·m)'],
    ['1.2 to 1.3 m', 'us', '4.0 to 4.2 ft (1.2 to 1.3 m)'],
    ['1 in', 'si', '25.4 mm (1 in)'],
    ['0.45 ± 0.05 m/s', 'si', '0.40 to 0.50 m/s (1.32 to 1.64 ft/s)'],
    ['5.00 to 5.01 ft', 'us', '5.00 to 5.01 ft (1.524 to 1.527 m)'],
    ['100 lb', 'us', '100 lb (45.36 kg)'],
  ] as const)('%s in both systems, %s first: %s', (text, first, shown) => {
    expect(plain(formatBoth(limits(text), first))).toBe(shown);
  });

  test('limits are rounded inward, enclosures outward, a value to the nearest', () => {
    const of = { low: number('3.672'), high: number('4.116'), unit: unit('V'), resolution: number('0.1') };
    expect(plain(formatLimits(of))).toBe('3.7 to 4.1 V');
    // between two steps finer ones are shown, never ends that have changed places
    expect(plain(formatLimits({ ...of, low: number('3.61'), high: number('3.69') }))).toBe('3.61 to 3.69 V');
    expect(plain(formatLimits({ ...of, low: number('3.611'), high: number('3.618') }))).toBe('3.611 to 3.618 V');
    expect(plain(formatEnclosure(range('3.672', '4.116'), of))).toBe('3.6 to 4.2 V');
    expect(plain(formatEnclosure(range('3.7', '3.7'), of))).toBe('3.7 V');
    expect(plain(formatQuantity(number('3.672'), of))).toBe('3.7 V');
    expect(plain(formatQuantity(number('-0.04'), of))).toBe('0.0 V');
    expect(limitsIn({ ...of, low: number('3.61'), high: number('3.69') }, unit('V'))).toBeUndefined();
    expect(
      plain(formatQuantity(number('3660'), { unit: unit('lb'), resolution: number('20') }).replace('lb', 'lb')),
    ).toMatch(/^80[68]0 lb$/);
  });

  test('a resolution in another unit is the power of ten that is no coarser', () => {
    for (const [from, to, exponent] of [
      ['1 ft', 'm', -1],
      ['1 degF', 'degC', -1],
      ['1 in', 'mm', 1],
      ['0.1 psi', 'kPa', -1],
      ['1 deg', 'rad', -2],
    ] as const) {
      expect(show(likeResolution(limits(from), unit(to)))).toBe(show(tenTo(exponent)));
    }
  });
});

const decimal = fc
  .tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 4 }))
  .map(([digits, places]) => (digits / 10 ** places).toFixed(places));
const anyUnit = fc.constantFrom(
  ...[...simpleUnits.values()].filter(({ dimension }) => dimension.some((exponent) => exponent !== 0)),
);

describe('what is printed', () => {
  test('reads back as the same limits', () => {
    fc.assert(
      fc.property(
        decimal,
        decimal,
        anyUnit,
        fc.constantFrom('range', 'at least', 'at most', 'single'),
        (a, b, of, kind) => {
          const [low, high] = Number(a) <= Number(b) ? [a, b] : [b, a];
          const text =
            kind === 'range'
              ? `${low} to ${high} ${of.symbol}`
              : kind === 'single'
                ? `${a} ${of.symbol}`
                : `${kind} ${a} ${of.symbol}`;
          const written = limits(text);
          const again = limits(formatLimits(written));
          expect(plain(formatLimits(again))).toBe(plain(formatLimits(written)));
          if (of.pi === 0) expect(ends(again)).toEqual(ends(written));
        },
      ),
      settings,
    );
  });

  test('in another unit lies within the limits, loses less than one step at each end, and says no more', () => {
    fc.assert(
      fc.property(
        anyUnit.chain((a) =>
          fc.tuple(
            fc.constant(a),
            fc.constantFrom(
              ...[...simpleUnits.values()].filter(
                (b) => isConvertible(a, b) && (a.offset === undefined) === (b.offset === undefined),
              ),
            ),
          ),
        ),
        decimal,
        decimal,
        ([from, to], a, b) => {
          fc.pre(Number(a) !== Number(b) && from.pi === 0 && to.pi === 0);
          const [low, high] = Number(a) < Number(b) ? [a, b] : [b, a];
          const written = limits(`${low} to ${high} ${from.symbol}`);
          const shown = limitsIn(written, to);
          if (!shown?.low || !shown.high || !written.low || !written.high) return;
          expect(liesWithin(shown, written)).toBe(true);
          const lost = rational(shown.resolution.num * to.factor.num, shown.resolution.den * to.factor.den);
          expect(
            compare(
              rational(
                shown.low.num * written.low.den - written.low.num * shown.low.den,
                shown.low.den * written.low.den,
              ),
              lost,
            ),
          ).toBe(-1);
          expect(
            compare(lost, rational(written.resolution.num * from.factor.num, written.resolution.den * from.factor.den)),
          ).not.toBe(1);
          // and its own text is exactly it
          expect(ends(limits(formatLimits(shown)))).toEqual(ends(shown));
        },
      ),
      settings,
    );
  });
});

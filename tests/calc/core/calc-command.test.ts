// `stepgauge calc`: what is printed, as text and as JSON, and the exit code.

import { describe, expect, test } from 'vitest';
import type { CalcArguments } from '../../../src/commands/calc.js';
import { runCalc } from '../../../src/commands/calc.js';

const text = (expression: string, more: Partial<CalcArguments> = {}): string => {
  const result = runCalc({ expression, ...more });
  expect(result.exit, result.text).toBe(0);
  return result.text.trimEnd();
};
const json = (
  expression: string,
  more: Partial<CalcArguments> = {},
): { value: number | null; low: number | null; high: number | null; unit: string } =>
  JSON.parse(text(expression, { ...more, format: 'json' }));

describe('results', () => {
  test.each([
    ['12 * (20 ± 0.25) in', { to: 'ft' }, '19.75 to 20.25 ft'],
    ['x * (1 - x)', { let: ['x=0 to 1'] }, '0 to 0.25'],
    ['20 ft', { to: 'm' }, '6.096 m'],
    ['20 ft to m', {}, '6.096 m'],
    ['3.6 to 4.2 V to mV', {}, '3600 to 4200 mV'],
    ['6 ft to ft in', {}, '6 ft 0 in'],
    ['1 to 2', {}, '1 to 2'],
    ['17 ft 5 in + 8 in', { to: 'ft in' }, '18 ft 1 in'],
    ['3 1/8 in', { to: 'mm' }, '79.375 mm'],
    ['5 V / 2 A', {}, '2.5 ohm'],
    ['0.1 + 0.2', {}, '0.3'],
    ['5 V*min(2, 3)', {}, '10 V'],
    ['540 rpm * pi * 42 in / 1 rev', { to: 'mph' }, '67.47284222 mph'],
    ['2^3^2', {}, '512'],
    ['-2^2', {}, '-4'],
    ['32 degF', { to: 'degC' }, '0 degC'],
    ['-40 degF', { to: 'degC' }, '-40 degC'],
    ['0 degC', { to: 'K' }, '273.15 K'],
    ['300 K', { to: 'degC' }, '26.85 degC'],
    ['212 degF - 32 degF', { to: 'degC' }, '100 degC'],
    ['mean(20 degC, 68 degF)', {}, '20 degC'],
    ['10 degC to 20 degC', { to: 'degF' }, '50 to 68 degF'],
    ['20 degC ± 2 degC', { to: 'degF' }, '64.4 to 71.6 degF'],
    ['500 lb-ft * 540 rpm / 1 rad', { to: 'hp' }, '51.40787979 hp'],
    ['180 deg', { to: 'rad' }, '3.141592654 rad'],
    ['1 rpm', { to: 'deg/s' }, '6 deg/s'],
    ['60 lb/bu * 200 bu', { to: 'short ton' }, '6 short ton'],
    ['10 mph * 20 ft', { to: 'ac/h' }, '24.24242424 ac/h'],
    ['sin(30 deg)', {}, '0.5'],
    ['atan(1)', { to: 'deg' }, '45 deg'],
    ['1 ac', { to: 'ha' }, '0.40468564224 ha'],
    ['3 ft * 2 ft', { to: 'm^2' }, '0.55741824 m^2'],
    ['180 bu/ac * 56 lb/bu', { to: 't/ha' }, '11.29817965 t/ha'],
    ['at least 2.5 V', {}, 'at least 2.5 V'],
    ['(20 ± 2 %) in', {}, '19.6 to 20.4 in'],
    ['on-ground - raised', { let: ['on_ground=3.6 to 4.2 V', 'raised=0.9 ± 0.2 V'] }, '2.5 to 3.5 V'],
    ['header.width / 2', { let: ['header.width=20 ft'] }, '10 ft'],
    ['a + b', { let: ['a=2 V', 'b=2 * a'] }, '6 V'],
    ['max(3,6)', {}, '6'],
    ['1e-20 m', {}, '1e-20 m'],
    ['0.05', { to: '%' }, '5 %'],
    ['1 - 5 %', {}, '0.95'],
    ['5 % * 20 ft', {}, '1 ft'],
    ['9.80665 m/s^2 * 5 kg', {}, '49.03325 N'],
    ['(3 ft)^2', {}, '9 ft²'],
    ['5 mi / 2 h', {}, '2.5 mi/h'],
    ['50 degF - 40 degF', {}, '10 degF'],
    ['3 in / 1 ft', {}, '0.25'],
    ['10 V * 2 A', {}, '20 W'],
    ['(100 % - 20 %) / (100 % - 15.5 %)', {}, '0.9467455621'],
  ] as const)('%s %j is %s', (expression, more, expected) => {
    expect(text(expression, more as Partial<CalcArguments>)).toBe(expected);
  });

  test('as JSON: value, or low and high', () => {
    expect(json('20 ft', { to: 'm' })).toEqual({ value: 6.096, low: 6.096, high: 6.096, unit: 'm' });
    expect(json('x * (1 - x)', { let: ['x=0 to 1'] })).toEqual({ value: null, low: 0, high: 0.25, unit: '' });
    expect(json('12 * (20 ± 0.25) in', { to: 'ft' })).toEqual({ value: null, low: 19.75, high: 20.25, unit: 'ft' });
    expect(json('at most 3 %')).toEqual({ value: null, low: null, high: 3, unit: '%' });
    expect(json('0.1 + 0.2').value).toBe(0.3);
  });

  test('a value that is no fraction is the nearest float, between its neighbours', () => {
    const found = json('sqrt(2)');
    expect(found.value).toBe(Math.SQRT2);
    expect((found.low ?? 9) < (found.high ?? 0)).toBe(true);
    expect(found.low).toBeLessThanOrEqual(Math.SQRT2);
    expect(found.high).toBeGreaterThanOrEqual(Math.SQRT2);
  });

  test('--explain tells the dimension, what is reached, and the effect of each input', () => {
    const found = text('on_ground - 2 * raised', {
      let: ['on_ground=3.6 to 4.2 V', 'raised=0.9 ± 0.2 V'],
      explain: true,
    });
    expect(found.split('\n')).toEqual([
      '1.4 to 2.8 V',
      'dimension: voltage',
      'both ends are reached',
      'input on_ground = 3.6 to 4.2 V: 1 V for each V',
      'input raised = 0.7 to 1.1 V: -2 V for each V',
      // a = 0.3 V and 2 * 0.2 V as rectangles: 2 sqrt ((0.09 + 0.16) / 3) = 0.577 V (JCGM 100, 4.3.7)
      'inputs as independent errors, each rectangular over its range: 2.10 V ± 0.58 V (U = 2u)',
    ]);
    expect(text('(5.0 ± 0.1) V * (0.72 ± 0.01)', { explain: true })).toContain(
      'input (5.0 ± 0.1): 0.71 to 0.73 V for each 1',
    );
    expect(text('1 / (x - 1)', { let: ['x=2 to 3'], explain: true })).toContain('independent errors');
    expect(text('20 ft', { explain: true })).toContain('also: 6.096 m');
    const explained = JSON.parse(text('x * (1 - x)', { let: ['x=0 to 1'], explain: true, format: 'json' }));
    expect(explained.explain).toMatchObject({
      dimension: 'number',
      proved: true,
      attained: { low: 0, high: 0.25 },
      inputs: [{ name: 'x', low: 0, high: 1, slope: { low: -1, high: 1 } }],
    });
  });
});

describe('faults', () => {
  test.each([
    ['5 V + 3 m', {}, 'error: A voltage and a length cannot be added\n  5 V + 3 m\n  ^^^^^^^^^'],
    ['5 volts', {}, '    ^^^^^\nhelp: Write `V`.\n      5 V'],
    ['3.6-4.2 V', {}, '      3.6 to 4.2 V'],
    ['20"', {}, '      20 in'],
    ['3,6 V', {}, '      3.6 V'],
    ['17 ft-5 in', {}, '      17 ft 5 in\n      17 ft - 5 in'],
    ['1 / x', { let: ['x=-1 to 1'] }, 'holds zero'],
    ['x', {}, '--let "x=…"'],
    ['x', { let: ['x=at least 2 V'] }, 'one limit only'],
    ['5 V', { to: 'm' }, 'a voltage, `m` is a unit of length'],
    ['5 V', { to: 'volt' }, 'Write `V`'],
    ['5 V', { to: '' }, 'no unit'],
    ['1e400', {}, 'beyond'],
    ['20 degC + 5 degC', {}, 'cannot be added'],
    ['1', { let: ['x'] }, 'NAME=LIMITS'],
    ['1', { let: ['max=2'] }, 'is a function'],
    ['1', { let: ['x=1', 'x=2'] }, 'already'],
    ['1', { let: ['x=5 v'] }, '  x=5 v\n      ^'],
    ['500 lb-ft * 540 rpm', { to: 'hp' }, '1 rad'],
    ['10 % of 5 V', {}, '      10 % * 5 V'],
    ['540 rpm * pi * 42 in', { to: 'mph' }, 'or by `1 rev`'],
    ['2^-1/2', {}, '      2^-(1/2)\n      2^-1 / 2'],
    ['350 ft lbf', {}, '      350 ft*lbf'],
    ['62.77 kg/ha to bu/ac', {}, 'legal mass'],
    ['toString', {}, 'no name'],
    ['constructor', {}, 'has no value'],
    ['__proto__', {}, 'no name'],
    ['(1', {}, 'not closed'],
    ['', {}, 'empty'],
    ['5 to 3 V', {}, 'low end lies above'],
  ] as const)('%s %j', (expression, more, expected) => {
    const result = runCalc({ expression, ...(more as Partial<CalcArguments>) });
    expect(result.exit).toBe(1);
    expect(result.text).toContain(expected);
    expect(result.text).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  test('as JSON name the place', () => {
    const result = runCalc({ expression: '5 v', format: 'json' });
    expect(result.exit).toBe(1);
    expect(JSON.parse(result.text).error).toMatchObject({ text: '5 v', start: 2, end: 3, rewrites: ['5 V'] });
  });
});

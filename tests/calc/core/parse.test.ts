// The grammar: what is read and how, what is refused, where, and with which rewrite.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Expr } from '../../../src/calc/expression/ast.js';
import { namesIn } from '../../../src/calc/expression/names.js';
import {
  parseEffect,
  parseExpression,
  parseLimits,
  parseQuantity,
  whyNoName,
} from '../../../src/calc/expression/parse.js';
import { expr, limitsExpr, right, settings, show, wrong } from './reading.js';

/** An expression written back with every parenthesis: how it was read. */
function tree(of: Expr): string {
  switch (of.kind) {
    case 'number':
      return `${show(of.value)}${of.unit ? ` ${of.unit.symbol}` : ''}`;
    case 'name':
      return of.path;
    case 'pi':
      return 'pi';
    case 'negate':
      return `-(${tree(of.of)})`;
    case 'binary':
      return `(${tree(of.left)} ${of.op} ${tree(of.right)})`;
    case 'call':
      return `${of.name}(${of.args.map(tree).join(', ')})`;
    case 'around':
      return `{${tree(of.middle)} +${tree(of.plus)} -${tree(of.minus)}${of.percent ? ' of it' : ''}}`;
    case 'range':
      return `{${tree(of.low)} to ${tree(of.high)}}`;
    case 'in-unit':
      return `${tree(of.of)} [${of.unit.symbol}]`;
  }
}

describe('expressions', () => {
  test.each([
    ['1 + 2 * 3', '(1 + (2 * 3))'],
    ['(1 + 2) * 3', '((1 + 2) * 3)'],
    ['8 - 3 - 2', '((8 - 3) - 2)'],
    ['8 / 4 / 2', '((8 / 4) / 2)'],
    // by common custom of mathematics: from the right, and before a sign
    ['2^3^2', '(2 ^ (3 ^ 2))'],
    ['-2^2', '-((2 ^ 2))'],
    ['2^-1', '(2 ^ -1)'],
    ['-x * y', '(-(x) * y)'],
    ['2 * -3', '(2 * -3)'],
    // a unit binds tighter than every operator
    ['2 in^2', '2 in²'],
    ['10 ft / 2 s', '(10 ft / 2 s)'],
    ['10 ft/2 s', '(10 ft / 2 s)'],
    ['10 ft/min', '10 ft/min'],
    ['5 N*m', '5 N·m'],
    ['3 m * 2 m', '(3 m * 2 m)'],
    ['0.45 V/deg * turn', '(9/20 V/deg * turn)'],
    // single numbers
    ['1/8 in', '1/8 in'],
    ['3 1/8 in', '25/8 in'],
    ['17 ft 5 in', '209 ft in'],
    ['-17 ft 5 in', '-209 ft in'],
    ['-3 1/8 in', '-25/8 in'],
    ['17 ft 5 1/2 in', '419/2 ft in'],
    ['1 h 30 min', '90 h min'],
    ['-10 degC', '-10 degC'],
    // spaces make a division
    ['1 / 8 in', '(1 / 8 in)'],
    ['1/8', '1/8'],
    ['x/8', '(x / 8)'],
    ['20in', '20 in'],
    ['.5 V', '1/2 V'],
    ['1e3 mm', '1000 mm'],
    ['2 sq ft', '2 sq ft'],
    ['5\u00a0V', '5 V'],
    ['rows * row_spacing', '(rows * row_spacing)'],
    ['machine.sensor_supply / 2', '(machine.sensor_supply / 2)'],
    ['max(abs(error))', 'max(abs(error))'],
    ['min(a, b, 3 V)', 'min(a, b, 3 V)'],
    ['2 * pi * r', '((2 * pi) * r)'],
    ['max(3,6)', 'max(3, 6)'],
    ['+5', '5'],
    ['1 - 5 %', '(1 - 5 %)'],
    ['100-5', '(100 - 5)'],
    ['slope(y, x)', 'slope(y, x)'],
    ['(shown - scale) / scale', '((shown - scale) / scale)'],
  ])('%s', (text, read) => {
    expect(tree(expr(text))).toBe(read);
  });

  test('source digits are kept as the resolution', () => {
    for (const [text, resolution] of [
      ['3.0 V', '1/10'],
      ['3 V', '1'],
      ['3.60 V', '1/100'],
      ['3 1/8 in', '1/8'],
      ['17 ft 5 in', '1'],
      ['1.5e3 V', '100'],
      ['120000 lb', '1'],
    ] as const) {
      const of = expr(text);
      expect(of.kind === 'number' && show(of.resolution), text).toBe(resolution);
    }
  });

  test('ranges and units after parentheses are read for calc alone', () => {
    for (const [text, read] of [
      ['12 * (20 ± 0.25) in', '(12 * {20 +1/4 -1/4} [in])'],
      ['(20 ± 2 %) in', '{20 +2 % -2 % of it} [in]'],
      ['(0 to 1) * 2', '({0 to 1} * 2)'],
      ['(3.6 to 4.2 V) / 2', '({18/5 V to 21/5 V} / 2)'],
      ['(0.9 +0.3/-0.1 V) * 2', '({9/10 V +3/10 V -1/10 V} * 2)'],
      ['(2 + 3) in', '(2 + 3) [in]'],
    ] as const) {
      expect(tree(right(parseExpression(text, { calc: true })))).toBe(read);
      expect(parseExpression(text).ok, text).toBe(false);
    }
  });

  test('a hyphen joins a name only where there is such a name', () => {
    const isName = (path: string): boolean => ['on_ground', 'raised', 'machine.sensor_supply', 'on'].includes(path);
    const read = (text: string): string => tree(right(parseExpression(text, { isName })));
    expect(read('on-ground - raised')).toBe('(on_ground - raised)');
    expect(read('2 * on-ground')).toBe('(2 * on_ground)');
    expect(read('machine.sensor-supply')).toBe('machine.sensor_supply');
    expect(read('on-raised')).toBe('(on - raised)');
    expect(read('on - ground')).toBe('(on - ground)');
    expect(tree(expr('on-ground'))).toBe('(on - ground)');
    expect(expr('on-ground')).toMatchObject({ tight: true });
  });

  test('every node knows its place', () => {
    const text = '  (shown - scale) / max( scale , 3 lb )';
    const visit = (of: Expr): void => {
      expect(text.slice(of.start, of.end).trim()).toBe(text.slice(of.start, of.end));
      if (of.kind === 'name') expect(text.slice(of.start, of.end)).toBe(of.path);
      if (of.kind === 'number') expect(text.slice(of.start, of.end)).toBe('3 lb');
      if (of.kind === 'binary') [of.left, of.right].forEach(visit);
      if (of.kind === 'call') of.args.forEach(visit);
    };
    visit(expr(text));
    expect(namesIn(expr(text)).map(({ path, start }) => [path, start])).toEqual([
      ['shown', 3],
      ['scale', 11],
      ['scale', 25],
    ]);
    expect(namesIn(limitsExpr('0.72 * supply to header.max_supply')).map(({ path }) => path)).toEqual([
      'supply',
      'header.max_supply',
    ]);
  });
});

describe('limits', () => {
  const read = (text: string): string => {
    const of = limitsExpr(text);
    switch (of.kind) {
      case 'range':
        return `${tree(of.low)} to ${tree(of.high)}`;
      case 'around':
        return `${tree(of.nominal)} +${tree(of.plus)} -${tree(of.minus)}${of.percent ? ' of it' : ''}`;
      case 'at-least':
        return `>= ${tree(of.low)}`;
      case 'at-most':
        return `<= ${tree(of.high)}`;
      case 'single':
        return tree(of.of);
    }
  };
  test.each([
    ['3.6 to 4.3 V', '18/5 V to 43/10 V'],
    ['0.9 ± 0.2 V', '9/10 V +1/5 V -1/5 V'],
    ['0.9 +/- 0.2 V', '9/10 V +1/5 V -1/5 V'],
    ['0.9±0.2V', '9/10 V +1/5 V -1/5 V'],
    ['0.9 +0.3/-0.1 V', '9/10 V +3/10 V -1/10 V'],
    ['0.9 V +0.3 V / -0.1 V', '9/10 V +3/10 V -1/10 V'],
    ['20 ft ± 2 %', '20 ft +2 % -2 % of it'],
    ['20 ± 2 %', '20 % +2 % -2 %'],
    ['20 % ± 2 %', '20 % +2 % -2 %'],
    ['header.working_width ± 2 %', 'header.working_width +2 % -2 % of it'],
    ['at least 2.5 V', '>= 5/2 V'],
    ['at most 3 %', '<= 3 %'],
    ['at  least 100 degF', '>= 100 degF'],
    [
      '0.72 * machine.sensor_supply to 0.84 * machine.sensor_supply',
      '(18/25 * machine.sensor_supply) to (21/25 * machine.sensor_supply)',
    ],
    ['header.on_ground', 'header.on_ground'],
    ['12', '12'],
    ['-12 to 12 deg', '-12 deg to 12 deg'],
    ['2 to 3 s', '2 s to 3 s'],
    ['15 min', '15 min'],
    ['12 to 15 min', '12 min to 15 min'],
    ['at most 15 min', '<= 15 min'],
    ['17 ft 5 in to 18 ft', '209 ft in to 18 ft'],
    ['3 in to 1 ft', '3 in to 1 ft'],
    ['4.2 V to 3.6 V', '21/5 V to 18/5 V'],
    ['1/8 to 1/4 in', '1/8 in to 1/4 in'],
    ['-0.5 to 0.5 V', '-1/2 V to 1/2 V'],
    ['0 to 5', '0 to 5'],
    ['5.0 ± 0.1 V', '5 V +1/10 V -1/10 V'],
    ['3.6 V - 4.2 V', '(18/5 V - 21/5 V)'],
  ])('%s', (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  test('effects of adjusters divide at `for`', () => {
    expect(tree(right(parseEffect('0.45 V for 10 deg')))).toBe('(9/20 V / 10 deg)');
    expect(tree(right(parseEffect('0.045 V/deg')))).toBe('9/200 V/deg');
    const degrees = right(parseEffect('0.01 V for 5 degC'));
    expect(degrees.kind === 'binary' && degrees.right.kind === 'number' && degrees.right.unit?.offset).toBeUndefined();
    expect(parseExpression('0.45 V for 10 deg').ok).toBe(false);
  });

  test('one quantity', () => {
    expect(tree(right(parseQuantity(' -12.0 V ')))).toBe('-12 V');
    expect(tree(right(parseQuantity('17 ft 5 in')))).toBe('209 ft in');
    for (const text of ['', 'x', '1 + 2', '1 V to 2 V', 'abs(3)', '5 v'])
      expect(parseQuantity(text).ok, text).toBe(false);
  });
});

describe('slips, each with its place and its rewrite', () => {
  // where | what is marked | what is offered
  test.each([
    ['3.6-4.2 V', '3.6-', ['3.6 to 4.2 V']],
    ['3.6 - 4.2 V', '3.6 - ', ['3.6 to 4.2 V']],
    ['3.6–4.2 V', '3.6–', ['3.6 to 4.2 V']],
    ['3.6 — 4.2 V', '3.6 — ', ['3.6 to 4.2 V']],
    ['3.6..4.2 V', '3.6..', ['3.6 to 4.2 V']],
    ['3.6…4.2 V', '3.6…', ['3.6 to 4.2 V']],
    ['3.6 V–4.2 V', '3.6 V–', ['3.6 V to 4.2 V']],
    ['between 3.6 and 4.2 V', 'between 3.6 and 4.2 V', ['3.6 to 4.2 V']],
    ['from 3.6 to 4.2 V', 'from 3.6 to 4.2 V', ['3.6 to 4.2 V']],
    ['3.6 V-4.2 V', '3.6 V-4.2 V', ['3.6 V to 4.2 V', '3.6 V - 4.2 V']],
    ['3-5', '3-', ['3 to 5', '3 - 5']],
    ['2.5 V min', '2.5 V min', ['at least 2.5 V']],
    ['2.5 V max', '2.5 V max', ['at most 2.5 V']],
    ['2.5 V or more', '2.5 V or more', ['at least 2.5 V']],
    ['min 2.5 V', 'min ', ['at least 2.5 V']],
    ['max. 3 %', 'max. ', ['at most 3 %']],
    ['>= 2.5 V', '>= ', ['at least 2.5 V']],
    ['≤ 3 %', '≤ ', ['at most 3 %']],
    ['At least 2.5 V', 'At least ', ['at least 2.5 V']],
    ['up to 3 %', 'up to ', ['at most 3 %']],
    ['no more than 3 %', 'no more than ', ['at most 3 %']],
    ['< 3 V', '< ', ['at most 3 V']],
    ['20"', '"', ['20 in']],
    ['20 ″', '″', ['20 in']],
    ["5'", "'", ['5 ft']],
    ['17\' 5"', '"', ['17 ft 5 in']],
    ['17’5”', '”', ['17 ft 5 in']],
    ['20" to 30"', '"', ['20 in to 30 in']],
    ['17 ft-5 in', '17 ft-5 in', ['17 ft 5 in', '17 ft - 5 in']],
    ['5 V-x', '5 V-', ['5 V - x']],
    ['3,6 V', '3,6', ['3.6 V']],
    ['3,6 to 4,2 V', '3,6', ['3.6 to 4.2 V']],
    ['1,200 lb', '1,200', ['1200 lb', '1.200 lb']],
    ['0,045 V', '0,045', ['0.045 V']],
    ['0.9 +- 0.2 V', '+-', ['0.9 ± 0.2 V']],
    ['0.9 -/+ 0.2 V', '-/+', ['0.9 ± 0.2 V']],
    ['0.9 -0.1/+0.3 V', ' -0.1/+0.3', ['0.9 +0.3/-0.1 V']],
    ['0.9 V +0.3 V -0.1 V', '0.9 V +0.3 V -', ['0.9 V +0.3 V/-0.1 V']],
    ['−5 V', '−', ['-5 V']],
    ['5 V – 3 V', '5 V – ', ['5 V to 3 V']],
    ['3½ in', '½', ['3 1/2 in']],
    ['½ in', '½', ['1/2 in']],
    ['180 °F', '°F', ['180 degF']],
    ['180 deg F', 'deg F', ['180 degF']],
    ['180 DegF', 'DegF', ['180 degF']],
    ['5 v', 'v', ['5 V']],
    ['5 volts', 'volts', ['5 V']],
    ['20 inch', 'inch', ['20 in']],
    ['5 m2', 'm2', ['5 m²']],
    ['20 in.', '.', ['20 in']],
    ['5 Ω', 'Ω', ['5 ohm']],
    ['20°', '°', ['20 deg']],
    ['5 V ± 0.1', '0.1', ['5 V ± 0.1 V']],
    ['3 V to 5', '5', ['3 V to 5 V']],
    ['20 ft 6', '6', ['20 ft 6 in']],
    ['atleast 2.5 V', 'atleast', ['at least 2.5 V']],
    ['1 200 lb', '1 200', ['1200 lb']],
    ['8 000 to 16 000 lb', '8 000', ['8000 to 16000 lb']],
    ['8,000 to 16,000 lb', '8,000', ['8000 to 16000 lb', '8.000 to 16.000 lb']],
    ['6O s', '6O', ['60 s']],
    ['4.l5 V', '4.l5', ['4.15 V']],
    ['2O to 3O V', '2O', ['20 to 30 V']],
    ['60 sces', 'sces', ['60 s']],
    ['2.6 ot 3.4 V', '2.6 ot ', ['2.6 to 3.4 V']],
    ['2.6 V yo 3.4 V', '2.6 V yo ', ['2.6 V to 3.4 V']],
    ['at leas 100 degF', 'at leas ', ['at least 100 degF']],
    ['at mots 3 %', 'at mots ', ['at most 3 %']],
    ['25-ft', '-', ['25 ft']],
    ['5.', '.', ['5']],
    ['x ** 2', '**', ['x ^ 2']],
    ['3 × 4 V', '×', ['3 * 4 V']],
    ['8 ÷ 2', '÷', ['8 / 2']],
    ['x²', '²', ['x^2']],
    ['2 pi', 'pi', ['2 * pi']],
    ['(2 + 3) in', 'in', ['(2 + 3) * 1 in']],
    ['2^1/2', '1/2', ['2^(1/2)', '2^1 / 2']],
  ] as const)('%s', (text, marked, rewrites) => {
    const fault = wrong(parseLimits(text));
    expect(text.slice(fault.start, fault.end)).toBe(marked);
    expect(fault.rewrites ?? []).toEqual(rewrites);
    expect(fault.message).not.toMatch(/undefined|NaN|\[object/);
    for (const rewrite of rewrites) expect(parseLimits(rewrite).ok, rewrite).toBe(true);
  });

  test.each([
    ['', ''],
    ['   ', ''],
    ['5 V extra', 'extra'],
    ['5 V 3', '3'],
    ['(1 + 2', '('],
    ['1 + 2)', ')'],
    ['1 +', ''],
    ['* 2', '*'],
    ['3.6.1 V', '3.6.1'],
    ['1/0 in', '1/0'],
    ['3 9/8 in', '3 9/8'],
    ['17.5 ft 5 in', '5'],
    ['17 ft 15 in', '17 ft 15 in'],
    ['about 5 V', 'about '],
    ['8 rows', 'rows'],
    ['V', 'V'],
    ['min', 'min'],
    ['sin 3', 'sin'],
    ['Foo', 'Foo'],
    ['toString', 'toString'],
    ['toString(1)', 'toString'],
    ['__proto__', '__proto__'],
    ['constructor(2)', 'constructor'],
    ['valueOf.x', 'valueOf.x'],
    ['max()', 'max()'],
    ['abs(1, 2)', 'abs(1, 2)'],
    ['a b', 'b'],
    ['a = b', '='],
    ['a > b', '>'],
    ['"x"', '"'],
    ['a[0]', '['],
    ['a;b', ';'],
    ['5 V to', ''],
    ['± 5 V', '±'],
    ['5 V ±', ''],
    ['a.b.', '.'],
    ['1e400', '1e400'],
    ['1e-400 V', '1e-400'],
    ['#', '#'],
    ['5 V to 6 V to 7 V', 'to'],
    ['at least', ''],
    ['to 5 V', 'to'],
    ['for 5 V', 'for'],
    ['0x10', 'x10'],
    ['5 V ± 1 V ± 2 V', '±'],
  ])('%j is refused at %j', (text, marked) => {
    const fault = wrong(parseLimits(text));
    expect(text.slice(fault.start, fault.end)).toBe(marked);
    expect(fault.message.length).toBeGreaterThan(10);
  });
});

describe('names', () => {
  test.each(['on_ground', 'flow', 'x', 'error', 'supply2', 'lower-snake'])('%s may be one', (word) => {
    expect(whyNoName(word)).toBeUndefined();
  });
  test.each([
    ['min', 'unit'],
    ['in', 'unit'],
    ['t', 'unit'],
    ['max', 'function'],
    ['slope', 'function'],
    ['to', 'word'],
    ['pi', 'word'],
    ['Foo', 'small'],
    ['2x', 'small'],
    ['__proto__', 'small'],
    ['', 'small'],
    ['bar', 'unit'],
  ])('%j may not: %s', (word, why) => {
    expect(whyNoName(word)).toContain(why);
  });
});

describe('hostile texts', () => {
  test('are refused within bounds', () => {
    const cases: readonly (readonly [string, RegExp])[] = [
      [`${'('.repeat(1000)}1${')'.repeat(1000)}`, /characters/],
      [`${'('.repeat(200)}1${')'.repeat(200)}`, /within each other/],
      [`${'-'.repeat(400)}1`, /within each other/],
      [`1${'^2'.repeat(200)}`, /within each other/],
      [`1${'+1'.repeat(1000)}`, /characters/],
      [`1${'+1'.repeat(255)}`, /parts/],
      [`${'abs('.repeat(100)}1${')'.repeat(100)}`, /within each other/],
      ['a'.repeat(600), /characters/],
    ];
    for (const [text, message] of cases) expect(wrong(parseExpression(text)).message).toMatch(message);
  });

  test('any text gives a value or a fault within it', () => {
    const piece = fc.constantFrom(
      '1',
      '3.6',
      ' ',
      '-',
      '+',
      '±',
      ' to ',
      'V',
      ' ft',
      'in',
      '(',
      ')',
      '/',
      '^',
      '*',
      'x',
      'max',
      ',',
      'at least ',
      '%',
      '"',
      "'",
      '−',
      '½',
      '.',
      'e5',
      '°F',
      ' pi',
      '\u00a0',
      ' for ',
      'degC',
      '<',
      'min',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 40 }),
          fc.array(piece, { maxLength: 14 }).map((pieces) => pieces.join('')),
        ),
        fc.boolean(),
        (text, calc) => {
          for (const parsed of [
            parseExpression(text, { calc }),
            parseLimits(text, { calc }),
            parseEffect(text),
            parseQuantity(text),
          ]) {
            if (parsed.ok) continue;
            const { start, end, rewrites } = parsed.fault;
            expect(start >= 0 && start <= end && end <= text.length, `${JSON.stringify(text)} ${start} ${end}`).toBe(
              true,
            );
            expect(rewrites?.includes(text) ?? false).toBe(false);
          }
        },
      ),
      { ...settings, numRuns: 3000 },
    );
  });
});

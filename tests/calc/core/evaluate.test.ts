// Values of expressions: exact where fractions reach, enclosed where they do not; pi, roots and angles against printed
// digits and against a second method; faults where there is no value.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  arcCosine,
  arcSine,
  arcTangent,
  cosine,
  fractionalPower,
  piBounds,
  root,
  sine,
  tangent,
} from '../../../src/calc/elementary.js';
import type { Shape } from '../../../src/calc/expression/dimensions.js';
import { dimensionOf, dimensionOfLimits } from '../../../src/calc/expression/dimensions.js';
import type { ValueScope } from '../../../src/calc/expression/evaluate.js';
import { evaluate } from '../../../src/calc/expression/evaluate.js';
import { parseExpression } from '../../../src/calc/expression/parse.js';
import type { Enclosure, Rational } from '../../../src/calc/rational.js';
import {
  add,
  compare,
  divide,
  fromDecimal,
  multiply,
  power,
  rational,
  sign,
  subtract,
  tenTo,
  toNumber,
  zero,
} from '../../../src/calc/rational.js';
import { compare as compareSlow, cosExact, sinExact } from '../interval/exact.js';
import { note } from '../outside/record.js';
import { calcExpr, expr, limitsExpr, number, range, right, settings, show, unit, wrong } from './reading.js';

const nothing: ValueScope = () => undefined;
const work = (text: string, scope: ValueScope = nothing): Enclosure => right(evaluate(calcExpr(text), scope));

function holds(found: Enclosure, printed: string): void {
  // the printed digits, cut off: the value lies between them and one more of the last
  const low = number(printed);
  const step = tenTo(-(printed.split('.')[1]?.length ?? 0));
  const high = sign(low) < 0 ? subtract(low, step) : add(low, step);
  const [from, to] = compare(low, high) < 0 ? [low, high] : [high, low];
  expect(
    compare(from, found.low) <= 0 && compare(found.high, to) <= 0,
    `${toNumber(found.low)} to ${toNumber(found.high)} against ${printed}`,
  ).toBe(true);
}

describe('pi, roots and angles', () => {
  test('pi by the formula of Machin: 16 atan 1/5 - 4 atan 1/239, its series summed in fractions', () => {
    const inverseTangent = (of: bigint): Enclosure => {
      let [sum, term] = [zero, rational(1n, of)];
      let last = zero;
      for (let k = 0n; k < 80n; k += 1n) {
        last = multiply(term, rational(k % 2n === 0n ? 1n : -1n, 2n * k + 1n));
        sum = add(sum, last);
        term = divide(term, rational(of * of));
      }
      // an alternating series ends within its last term
      const other = subtract(sum, last);
      return compare(sum, other) < 0 ? { low: sum, high: other } : { low: other, high: sum };
    };
    const [a, b] = [inverseTangent(5n), inverseTangent(239n)];
    const low = subtract(multiply(rational(16), a.low), multiply(rational(4), b.high));
    const high = subtract(multiply(rational(16), a.high), multiply(rational(4), b.low));
    expect(compare(low, piBounds.high)).toBe(-1);
    expect(compare(piBounds.low, high)).toBe(-1);
    expect(compare(subtract(piBounds.high, piBounds.low), tenTo(-89))).toBe(-1);
  });

  // NIST Digital Library of Mathematical Functions, 3.12 and 4.2 (constants), and common tables (from memory).
  test.each([
    ['sqrt(2)', '1.41421356237309504880168872420969807'],
    ['sqrt(3)', '1.73205080756887729352744634150587236'],
    ['pi', '3.14159265358979323846264338327950288'],
    ['2^0.5', '1.41421356237309504880168872420969807'],
    ['2^(1/3)', '1.25992104989487316476721060727822835'],
    ['10^0.5', '3.16227766016837933199889354443271853'],
    ['2^0.1', '1.07177346253629316421300632502334202'],
    ['sin(1 rad)', '0.84147098480789650665250232163029899'],
    ['cos(1 rad)', '0.54030230586813971740093660744297660'],
    ['tan(1 rad)', '1.55740772465490223050697480745836017'],
    ['sin(1 deg)', '0.01745240643728351281941897851631619'],
    ['atan(2) / 1 rad', '1.10714871779409050301706546017853704'],
    ['asin(0.3) / 1 rad', '0.30469265401539750797200296122752916'],
    ['acos(0.3) / 1 rad', '1.26610367277949911125931873041222227'],
    ['sin(1e22 rad)', '-0.85220084976718880177270589375302936'],
  ])('%s begins with %s', (text, printed) => {
    holds(work(text), printed);
    note({
      of: 'evaluate',
      against: 'printed digits of roots and angles (DLMF and common tables, from memory)',
      deviation: 0,
      unit: 'units of the last printed digit',
    });
  });

  test('are exact where the result is a fraction', () => {
    for (const [text, exact] of [
      ['sin(30 deg)', '1/2'],
      ['cos(60 deg)', '1/2'],
      ['sin(-90 deg)', '-1'],
      ['sin(390 deg)', '1/2'],
      ['tan(45 deg)', '1'],
      ['tan(135 deg)', '-1'],
      ['cos(180 deg)', '-1'],
      ['sin(pi * 1 rad / 6)', '1/2'],
      ['asin(1/2)', '1/12'],
      ['acos(-1)', '1/2'],
      ['atan(1)', '1/8'],
      ['sqrt(9/4)', '3/2'],
      ['8^(1/3)', '2'],
      ['4^1.5', '8'],
      ['4^-0.5', '1/2'],
      ['2^-3', '1/8'],
      ['(0 - 2)^3', '-8'],
      ['sqrt(0)', '0'],
      ['pi / pi', '1'],
      ['2 rad + 3 rad - 5 rad', '0'],
    ] as const) {
      const { low, high } = work(text);
      expect(`${text}: ${show(low)} ${show(high)}`).toBe(`${text}: ${exact} ${exact}`);
    }
  });

  test('sines and cosines against the plain series, 400 bits long', () => {
    fc.assert(
      fc.property(fc.bigInt(-1000n, 1000n), fc.bigInt(1n, 997n), (top, bottom) => {
        const angle = multiply(rational(top, bottom), rational(1));
        const turns = divide(angle, multiply(rational(2), piBounds.low));
        const hair = tenTo(-45);
        for (const [ours, slow] of [
          [sine(turns), sinExact({ top, bottom })],
          [cosine(turns), cosExact({ top, bottom })],
        ] as const) {
          const low = subtract(ours.low, hair);
          const high = add(ours.high, hair);
          expect(compareSlow({ top: low.num, bottom: low.den }, slow.low)).toBeLessThanOrEqual(0);
          expect(compareSlow({ top: high.num, bottom: high.den }, slow.high)).toBeGreaterThanOrEqual(0);
        }
      }),
      { ...settings, numRuns: 100 },
    );
  });

  test('roots enclose: low^n <= a <= high^n, and are narrow', () => {
    fc.assert(
      fc.property(
        fc.bigInt(0n, 10n ** 40n),
        fc.bigInt(1n, 10n ** 20n),
        fc.integer({ min: 2, max: 7 }),
        (num, den, degree) => {
          const a = rational(num, den);
          const { low, high } = root(a, degree);
          expect(compare(power(low, degree), a)).not.toBe(1);
          expect(compare(power(high, degree), a)).not.toBe(-1);
          expect(compare(subtract(high, low), multiply(high, tenTo(-50)))).not.toBe(1);
        },
      ),
      settings,
    );
  });

  test('inverse functions undo: the angle of a tangent, sine or cosine holds the angle', () => {
    fc.assert(
      fc.property(fc.bigInt(-999n, 999n), (thousandths) => {
        const angle = rational(thousandths, 4000n);
        const hair = tenTo(-30);
        const near = (found: Enclosure, of: Rational): boolean =>
          compare(subtract(found.low, hair), of) <= 0 &&
          compare(of, add(found.high, hair)) <= 0 &&
          compare(subtract(found.high, found.low), hair) < 0;
        expect(near(arcTangent(tangent(angle).low), angle)).toBe(true);
        expect(near(arcSine(sine(angle).low), angle)).toBe(true);
        const positive = rational(thousandths < 0n ? -thousandths : thousandths, 2000n);
        expect(near(arcCosine(cosine(positive).low), positive)).toBe(true);
      }),
      { ...settings, numRuns: 200 },
    );
  });

  test('broken powers: (a^(p/q))^q is a^p', () => {
    fc.assert(
      fc.property(
        fc.bigInt(1n, 10n ** 6n),
        fc.bigInt(1n, 10n ** 4n),
        fc.integer({ min: -30, max: 30 }),
        fc.integer({ min: 1, max: 30 }),
        (num, den, p, q) => {
          const a = rational(num, den);
          const { low, high } = fractionalPower(a, rational(p, q));
          expect(compare(power(low, q), power(a, p))).not.toBe(1);
          expect(compare(power(high, q), power(a, p))).not.toBe(-1);
          expect(compare(subtract(high, low), multiply(high, tenTo(-30)))).not.toBe(1);
        },
      ),
      { ...settings, numRuns: 150 },
    );
  });
});

describe('values', () => {
  const scope: ValueScope = (path) =>
    new Map<string, Enclosure | readonly Enclosure[]>([
      ['x', range(1, 3)],
      ['y', range(-1, 2)],
      ['shown', [range(10150, 10150), range(20100, 20100), range(29700, 29700)]],
      ['scale', [range(10000, 10000), range(20000, 20000), range(30000, 30000)]],
      ['two', [range(1, 1), range(2, 2)]],
    ]).get(path);

  test.each([
    ['0.1 + 0.2', '3/10', '3/10'],
    ['x - x', '0', '0'],
    ['x * y', '-3', '6'],
    ['y^2', '0', '4'],
    ['y * y', '0', '4'],
    ['abs(y)', '0', '2'],
    ['min(x, y)', '-1', '2'],
    ['max(x, 2)', '2', '3'],
    ['mean(x, y)', '0', '5/2'],
    ['count(shown)', '3', '3'],
    // worksheet of three loads: errors of 1.5 %, 0.5 % and -1 %
    ['max(abs((shown - scale) / scale))', '3/200', '3/200'],
    ['mean((shown - scale) / scale)', '1/300', '1/300'],
    ['sum(shown) / sum(scale)', '1199/1200', '1199/1200'],
    ['slope(shown, scale)', '391/400', '391/400'],
    ['-y', '-2', '1'],
    ['17 ft 5 in / 1 in', '209', '209'],
    ['y / x', '-1', '2'],
  ])('%s is %s to %s', (text, low, high) => {
    const found = work(text, scope);
    expect([show(found.low), show(found.high)]).toEqual([low, high]);
  });

  test.each([
    ['1 / (2 - 2)', '(2 - 2)', /zero/],
    ['1 / y', 'y', /holds zero/],
    ['x / (y - y)', '(y - y)', /zero/],
    ['sqrt(y)', 'y', /negative/],
    ['asin(x)', 'x', /-1 to 1/],
    ['tan(90 deg)', '90 deg', /90 deg/],
    ['tan(x * 1 rev)', 'x * 1 rev', /90 deg/],
    ['y^0.5', 'y', /broken power/],
    ['y^-1', 'y', /zero/],
    ['0^0', '0', /zero/],
    ['10^400', '10^400', /1e300/],
    ['1e200 * 1e200', '1e200 * 1e200', /1e300/],
    ['2^20000', '2^20000', /10000/],
    ['unknown + 1', 'unknown', /no value/],
    ['shown + 1', 'shown', /column/],
    ['mean(shown - two)', 'two', /rows/],
    ['slope(shown, 2)', 'slope(shown, 2)', /rows/],
    ['(3 to 1)', '(3 to 1)', /empty/],
  ])('%s has none: %s', (text, marked, message) => {
    const fault = wrong(evaluate(calcExpr(text), scope));
    expect(text.slice(fault.start, fault.end)).toBe(marked);
    expect(fault.message).toMatch(message);
  });

  test('names of the language are no values', () => {
    for (const name of ['constructor', 'hasownproperty', 'valueof'])
      expect(evaluate(expr(name), (path) => new Map<string, Enclosure>().get(path)).ok).toBe(false);
  });

  test('agree with plain fractions for sums, products and quotients of decimals', () => {
    const decimal = fc.tuple(fc.bigInt(-99999n, 99999n), fc.integer({ min: 0, max: 4 })).map(([digits, places]) => {
      const text = (Number(digits) / 10 ** places).toFixed(places);
      return { text: text.startsWith('-') ? `(${text})` : text, exact: fromDecimal(text) ?? zero };
    });
    fc.assert(
      fc.property(decimal, decimal, decimal, (a, b, c) => {
        fc.pre(sign(c.exact) !== 0);
        const { low, high } = work(`(${a.text} - ${b.text}) * ${a.text} / ${c.text}`);
        const plainly = divide(multiply(subtract(a.exact, b.exact), a.exact), c.exact);
        expect([show(low), show(high)]).toEqual([show(plainly), show(plainly)]);
      }),
      settings,
    );
  });
});

describe('dimensions', () => {
  const shapes = new Map<string, Shape>([
    ['on_ground', { dimension: unit('V').dimension }],
    ['width', { dimension: unit('ft').dimension }],
    ['rows', { dimension: unit('%').dimension }],
    ['oil', { dimension: unit('K').dimension, temperature: 'point' }],
    ['air', { dimension: unit('K').dimension, temperature: 'point' }],
    ['rise', { dimension: unit('K').dimension, temperature: 'difference' }],
    ['loads', { dimension: unit('lb').dimension, column: true }],
    ['turn', { dimension: unit('deg').dimension }],
  ]);
  const scope = (path: string): Shape | undefined => shapes.get(path);

  test.each([
    ['on_ground / turn', 'V/deg'],
    ['width * width', 'sq ft'],
    ['sqrt(width * width)', 'm'],
    ['12 * width', 'ft'],
    ['max(loads)', 'lb'],
    ['count(loads)', '%'],
    ['slope(loads, loads)', '%'],
    ['sin(turn)', '%'],
    ['atan(width / width)', 'deg'],
    ['width^2 / width', 'ft'],
    ['width^(1/2) * width^0.5', 'ft'],
    ['0.045 V/deg * turn', 'V'],
    ['60 lb/bu * 10 bu', 'lb'],
    ['10 mph * width', 'ac/h'],
    ['mean(oil, air)', 'K'],
    ['oil - air', 'K'],
    ['rise * 2', 'K'],
    ['max(oil, 100 degF)', 'K'],
    ['abs(-10 degC - air)', 'K'],
  ])('%s is measured in %s', (text, symbol) => {
    expect(right(dimensionOf(expr(text), scope)).dimension).toEqual(unit(symbol).dimension);
  });

  test('points and differences of temperature', () => {
    const kind = (text: string): string | undefined => right(dimensionOf(expr(text), scope)).temperature;
    expect(kind('oil - air')).toBe('difference');
    expect(kind('mean(oil, air)')).toBe('point');
    expect(kind('oil')).toBe('point');
    expect(kind('rise / 2')).toBe('difference');
    expect(kind('5 K')).toBeUndefined();
  });

  test.each([
    ['on_ground + width', 'on_ground + width', /voltage and a length/],
    ['2 * (on_ground - width)', 'on_ground - width', /voltage and a length/],
    ['max(on_ground, width)', 'width', /voltage before and a length/],
    ['on_ground + 1', 'on_ground + 1', /voltage and a number/],
    ['2^width', 'width', /power is a number/],
    ['width^1.3', '1.3', /whole number or a half/],
    ['width^rows', 'rows', /whole number or a half/],
    ['sin(0.5)', '0.5', /takes an angle/],
    ['asin(turn)', 'turn', /takes a number/],
    ['oil + air', 'oil + air', /cannot be added/],
    ['oil * 2', 'oil', /multiplied/],
    ['oil / 2', 'oil', /divided/],
    ['-oil', 'oil', /reversed/],
    ['oil - rise', 'oil - rise', /cannot be subtracted/],
    ['oil + 5 K', 'oil + 5 K', /cannot be added/],
    ['sum(oil, air)', 'oil', /summed/],
    ['sqrt(oil)', 'oil', /argument/],
    ['mean(oil, rise)', 'rise', /temperature before and a temperature difference/],
    ['loads * 2', 'loads * 2', /column/],
    ['loads', 'loads', /column/],
    ['missing', 'missing', /not known/],
    ['20 degC + 5 degC', '20 degC + 5 degC', /cannot be added/],
    ['3 ft + 2 ac', '3 ft + 2 ac', /length and a area|length and an area/],
  ])('%s clashes at %s', (text, marked, message) => {
    const fault = wrong(dimensionOf(expr(text), scope));
    expect(
      text
        .replace('(on_ground - width)', '(on_ground - width)')
        .slice(fault.start, fault.end)
        .replace(/^\((.*)\)$/, '$1'),
    ).toBe(marked);
    expect(fault.message).toMatch(message);
  });

  test('a torque times a speed is told how an angle is divided out', () => {
    const fault = wrong(dimensionOf(expr('500 lb-ft * 540 rpm + 1 hp'), scope));
    expect(fault.help).toContain('1 rad');
    expect(dimensionOf(expr('500 lb-ft * 540 rpm / 1 rad + 1 hp'), scope).ok).toBe(true);
  });

  test('limits of a formula with an angle too many say what to do to the formula', () => {
    const of = (text: string, formula: string, isWorkedOut = true) => {
      const { dimension } = right(dimensionOf(expr(formula), scope));
      return wrong(dimensionOfLimits(limitsExpr(text), scope, { dimension, isWorkedOut })).help;
    };
    expect(of('3 to 4 in', '30 deg * 4 in')).toMatch(/: divide what these are the limits of by `1 rad`/);
    expect(of('3 to 4 in/rad', '4 in')).toMatch(/: divide what/);
    expect(of('at most 3 in', '4 in / 30 deg')).toMatch(/: multiply what/);
    expect(of('3 in * 1 to 4 in * 1', '30 deg * 4 in')).toMatch(/: multiply by `1 rad`/);
    expect(of('3 to 4 in', '30 deg * 4 in', false)).toBeUndefined();
  });

  test('limits: both ends of one kind, and of what they are for', () => {
    const of = (text: string, expected?: Shape) => dimensionOfLimits(limitsExpr(text), scope, expected);
    const voltage: Shape = { dimension: unit('V').dimension };
    expect(right(of('3.6 to 4.2 V', voltage)).dimension).toEqual(voltage.dimension);
    expect(wrong(of('3.6 to 4.2 ft', voltage)).message).toMatch(/Unexpected length, expected voltage/);
    expect(wrong(of('3 ft to 4 V')).message).toMatch(/length.*voltage/);
    expect(wrong(of('3 V ± 1 ft')).message).toMatch(/tolerance is a length/);
    expect(of('20 ft ± 2 %', { dimension: unit('m').dimension }).ok).toBe(true);
    expect(of('20 degC ± 2 degC', { dimension: unit('K').dimension, temperature: 'point' }).ok).toBe(true);
    expect(wrong(of('20 degC ± 2 %')).message).toMatch(/percentage/);
    expect(of('at most 10 degF', { dimension: unit('K').dimension, temperature: 'difference' }).ok).toBe(true);
    expect(of('at most 10 K', { dimension: unit('K').dimension, temperature: 'difference' }).ok).toBe(true);
    expect(wrong(of('at most 5', voltage)).message).toMatch(/Unexpected number, expected voltage/);
  });

  test('every expression whose dimensions hold has a value or a fault, never anything else', () => {
    const atoms = fc.constantFrom('on_ground', '2', '3 V', 'width', '4 ft', 'turn', '30 deg', 'pi', '0', '1 %');
    const { tree } = fc.letrec<{ tree: string }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 4 },
        atoms,
        fc
          .tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/'), tie('tree'))
          .map(([a, op, b]) => `(${a} ${op} ${b})`),
        fc.tuple(fc.constantFrom('abs', 'sqrt', 'sin', 'atan'), tie('tree')).map(([name, a]) => `${name}(${a})`),
      ),
    }));
    const values: ValueScope = (path) =>
      ({ on_ground: range(3, 4), width: range(1, 2), turn: range('-0.1', '0.1') })[path];
    fc.assert(
      fc.property(tree, (text) => {
        const parsed = parseExpression(text);
        if (!parsed.ok || !dimensionOf(parsed.value, scope).ok) return;
        const found = evaluate(parsed.value, values);
        if (found.ok) expect(compare(found.value.low, found.value.high)).not.toBe(1);
        else expect(found.fault.message.length).toBeGreaterThan(5);
      }),
      { ...settings, numRuns: 1000 },
    );
  });
});

// Instruments and what decides on a reading: published accuracy examples, acceptance limits against trying every reading,
// and the promise that what passes as printed passes.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { acceptanceLimits } from '../../../src/calc/acceptance.js';
import { parseAccuracy } from '../../../src/calc/accuracy.js';
import type { DecisionRule } from '../../../src/calc/decision-rule.js';
import type { DerivedInput } from '../../../src/calc/derived-uncertainty.js';
import { derivedAcceptance, derivedUncertainty } from '../../../src/calc/derived-uncertainty.js';
import { formatLimits } from '../../../src/calc/display.js';
import type { Instrument } from '../../../src/calc/instrument.js';
import { expandedUncertainty, largestError, squaredUncertainty } from '../../../src/calc/instrument.js';
import type { Limits } from '../../../src/calc/limits.js';
import { holdsWithin } from '../../../src/calc/limits.js';
import type { Rational } from '../../../src/calc/rational.js';
import {
  add,
  compare,
  divide,
  fromNumber,
  multiply,
  negate,
  rational,
  sign,
  subtract,
  toInteger,
  toNumber,
} from '../../../src/calc/rational.js';
import { toBase } from '../../../src/calc/unit.js';
import { expectRelative } from '../outside/record.js';
import { expr, limits, number, range, right, settings, show, unit, wrong } from './reading.js';

const plain = (of: Limits | undefined): string => (of ? formatLimits(of).replaceAll('\u00a0', ' ') : 'nothing');

function instrument(accuracy: string, resolution?: string, more: Partial<Instrument> = {}): Instrument {
  return {
    accuracy: right(parseAccuracy(accuracy)),
    ...(resolution !== undefined && { resolution: number(resolution) }),
    ...more,
  };
}

describe('accuracy', () => {
  // A digital multimeter's +-(% of reading + counts), in four worked examples of instrument tutorials; the error and the two
  // ends that they print.
  test.each([
    ['0.5 % + 1 digit', '0.001', '1.755', 0.009775, '2 V range'],
    ['1 % + 2 digits', '0.1', '100.0', 1.2, '200 V range'],
    ['0.5 % + 3 digits', '0.001', '2', 0.013, '2 V'],
    ['0.08 % + 2 digits', '0.001', '2.000', 0.0036, '5 V range'],
    ['0.5 % + 3 digits', '0.001', '2.500', 0.0155, '6 V range'],
  ])('%s at a resolution of %s V reading %s V errs by %d V', (accuracy, resolution, reading, error, where) => {
    expectRelative(toNumber(largestError(instrument(accuracy, resolution), number(reading))), error, 1e-15, {
      of: 'largestError',
      against: `multimeter accuracy, worked examples of instrument tutorials (${where})`,
    });
  });

  test('u = e / sqrt 3, and a resolution counts where no digits do', () => {
    // JCGM 100:2008, 4.3.7 and F.2.2.1: a rectangular error, and a resolution of 0.01 as 0.01 / sqrt 12 = 0.0029
    const gum = { of: 'expandedUncertainty', against: 'JCGM 100:2008 (GUM), 4.3.7 and F.2.2.1' };
    expectRelative(
      toNumber(expandedUncertainty(instrument('0.5 % + 3 digits', '0.001'), number('2.5'))) / 2,
      0.0089489291724392,
      1e-13,
      gum,
    );
    expectRelative(
      toNumber(expandedUncertainty(instrument('± 0 V', '0.01'), number('1'))) / 2,
      0.0028867513459481,
      1e-13,
      gum,
    );
    // the display of a cab: e = 0.02 V, r = 0.01 V
    expectRelative(
      toNumber(expandedUncertainty(instrument('± 0.02 V', '0.01'), number('3'))),
      2 * Math.hypot(0.02 / Math.sqrt(3), 0.01 / Math.sqrt(12)),
      1e-14,
      gum,
    );
  });

  test('is never below the exact root', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 500 }),
        fc.integer({ min: 0, max: 500 }),
        fc.integer({ min: -9999, max: 9999 }),
        (p, c, x) => {
          const of: Instrument = {
            accuracy: {
              ofReading: rational(p, 10_000),
              ofRange: rational(0),
              digits: rational(0),
              constant: rational(c, 1000),
            },
            resolution: rational(1, 100),
          };
          const reading = rational(x, 100);
          const u = expandedUncertainty(of, reading);
          expect(compare(multiply(u, u), squaredUncertainty(of, reading))).not.toBe(-1);
        },
      ),
      settings,
    );
  });

  test.each([
    ['0.5 % + 2 digits', '1/200', '0', '2', '0'],
    ['0.2 % of range', '0', '1/500', '0', '0'],
    ['0.2 % of reading + 0.1 % of range', '1/500', '1/1000', '0', '0'],
    ['± 0.02 V', '0', '0', '0', '1/50'],
    ['+/- 20 mV', '0', '0', '0', '1/50'],
    ['± (0.5 % + 1 digit)', '1/200', '0', '1', '0'],
    ['0.2 %', '1/500', '0', '0', '0'],
    ['0.02 V', '0', '0', '0', '1/50'],
    ['50 ppm + 0.01 V', '1/20000', '0', '0', '1/100'],
    ['± 2 degF', '0', '0', '0', '10/9'],
  ])('%s is read', (text, ofReading, ofRange, digits, constant) => {
    const read = right(parseAccuracy(text));
    expect([read.ofReading, read.ofRange, read.digits, read.constant].map(show)).toEqual([
      ofReading,
      ofRange,
      digits,
      constant,
    ]);
  });

  test('± p % of an instrument that reads a ratio is in points', () => {
    expect(show(right(parseAccuracy('± 0.5 %', { ratio: true })).constant)).toBe('1/200');
    expect(show(right(parseAccuracy('0.5 %', { ratio: true })).ofReading)).toBe('1/200');
    expect(show(right(parseAccuracy('± 0.5 %')).ofReading)).toBe('1/200');
  });

  test.each([
    ['', ''],
    ['± ', '± '],
    ['0.5', '0.5'],
    ['0.5 % of full scale', '0.5 % of full scale'],
    ['0.5 v', 'v'],
    ['-0.5 V', '-0.5 V'],
    ['0.5 % + x', 'x'],
    ['2 counts', '2 counts'],
  ])('%j is refused at %j', (text, marked) => {
    const fault = wrong(parseAccuracy(text));
    expect(text.slice(fault.start, fault.end)).toBe(marked);
    expect(fault.message.length).toBeGreaterThan(10);
  });

  test('of range is of the larger of span and full scale', () => {
    expect(show(largestError(instrument('1 % of range', undefined, { range: range(0, 5) }), number('1')))).toBe('1/20');
    expect(show(largestError(instrument('1 % of range', undefined, { range: range(-5, 5) }), number('1')))).toBe(
      '1/10',
    );
    expect(show(largestError(instrument('1 % of range', undefined, { range: range(4, 20) }), number('1')))).toBe('1/5');
  });

  test('a percentage of a temperature counts from the zero of its scale', () => {
    const of = instrument('1 %', undefined, { unit: unit('degC') });
    expect(show(largestError(of, toBase(number('100'), unit('degC'))))).toBe('1');
  });
});

const display = instrument('± 0.02 V', '0.01');
const decide = (text: string, of: Instrument | undefined, decision: DecisionRule) =>
  acceptanceLimits({ limits: limits(text), instrument: of, decision });

describe('acceptance limits', () => {
  test.each([
    // U = 2 sqrt(0.02^2 / 3 + 0.01^2 / 12) = 0.0238 V
    ['3.6 to 4.2 V', display, 'guarded', '3.63 to 4.17 V'],
    ['3.6 to 4.2 V', display, 'simple', '3.60 to 4.20 V'],
    ['3.6 to 4.2 V', display, 'three-zone', '3.63 to 4.17 V'],
    ['at least 2.5 V', display, 'guarded', 'at least 2.53 V'],
    ['at most 2.5 V', display, 'guarded', 'at most 2.47 V'],
    ['3.6 to 4.2 V', undefined, 'guarded', '3.6 to 4.2 V'],
    ['3.605 to 4.195 V', display, 'simple', '3.61 to 4.19 V'],
    ['3.60 to 3.64 V', display, 'guarded', 'nothing'],
    ['3.601 to 3.609 V', display, 'simple', 'nothing'],
    // a share of the reading: x - 2 * (0.005 x + 0.002) / sqrt 3 >= 3.6 first at 3.624 V
    ['3.6 to 4.2 V', instrument('0.5 % + 2 digits', '0.001'), 'guarded', '3.624 to 4.173 V'],
    // a truck scale of 20 lb: U = 2 sqrt((0.002 x)^2 / 3 + 20^2 / 12)
    ['20000 to 30000 lb', instrument('0.2 %', '9.0718474', { unit: unit('lb') }), 'guarded', '20060 to 29920 lb'],
    // below zero the reading's share grows the other way
    ['-4.2 to -3.6 V', instrument('0.5 % + 2 digits', '0.001'), 'guarded', '-4.173 to -3.624 V'],
    ['-0.1 to 0.1 V', display, 'guarded', '-0.07 to 0.07 V'],
    // no resolution known
    ['3.6 to 4.2 V', instrument('± 0.02 V'), 'guarded', '3.624 to 4.176 V'],
    ['3.6 to 4.2 V', instrument('± 0 V', '0.05'), 'simple', '3.60 to 4.20 V'],
  ] as const)('%s: %#', (text, of, decision, expected) => {
    expect(plain(decide(text, of, decision).limits)).toBe(expected);
  });

  test('three zones: between the acceptance limits and the failing ones no verdict is given', () => {
    const { limits: passing, failing } = decide('3.6 to 4.2 V', display, 'three-zone');
    expect(plain(passing)).toBe('3.63 to 4.17 V');
    // a reading below 3.58 V fails even with U = 0.0238 V added
    expect(plain(failing)).toBe('3.58 to 4.22 V');
    expect(decide('3.6 to 4.2 V', display, 'guarded').failing).toBeUndefined();
  });

  test('the ratio and the coarseness that books are warned by', () => {
    const { ratio, coarseness } = decide('3.6 to 4.2 V', display, 'simple');
    const u = Math.hypot(0.02 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    // ANSI/NCSL Z540.3, 5.3 b): tolerance span over twice the 95 % uncertainty
    expectRelative(toNumber(ratio ?? rational(0)), 0.6 / (4 * u), 1e-14, {
      of: 'acceptanceLimits',
      against: 'ANSI/NCSL Z540.3, 5.3 b): test uncertainty ratio',
    });
    expect(show(coarseness)).toBe('1/60');
    expect(decide('at least 2.5 V', display, 'simple').ratio).toBeUndefined();
    expect(decide('3.6 to 4.2 V', instrument('± 0 V'), 'simple').ratio).toBeUndefined();
    // a tolerance of 10 mV cannot be decided with a meter of +-(0.5 % + 3) at 2.5 V
    const meter = decide('2.495 to 2.505 V', instrument('0.5 % + 3 digits', '0.001'), 'guarded');
    expect(meter.limits).toBeUndefined();
    expect(toNumber(meter.ratio ?? rational(9))).toBeLessThan(1);
  });

  test('of a temperature lie on the grid of its scale', () => {
    const probe = instrument('± 1 degF', undefined, { resolution: rational(5, 9), unit: unit('degF') });
    // U = 2 sqrt(1 / 3 + 1 / 12) = 1.29 degF
    expect(plain(decide('at least 100 degF', probe, 'guarded').limits)).toBe('at least 102 degF');
    expect(plain(decide('30 to 60 degC', probe, 'guarded').limits)).toBe('88 to 138 degF');
  });
});

const cases = fc.record({
  low: fc.integer({ min: -500, max: 500 }),
  width: fc.integer({ min: 1, max: 400 }),
  share: fc.integer({ min: 0, max: 300 }),
  constant: fc.integer({ min: 0, max: 40 }),
  digits: fc.integer({ min: 0, max: 3 }),
  step: fc.constantFrom('0.01', '0.05', '0.02', '0.001', '0.1'),
  decision: fc.constantFrom<DecisionRule>('simple', 'guarded', 'three-zone'),
  kind: fc.constantFrom('both', 'low', 'high'),
});

function build(of: {
  low: number;
  width: number;
  share: number;
  constant: number;
  digits: number;
  step: string;
  kind: string;
}): { limits: Limits; instrument: Instrument } {
  const [low, high] = [rational(of.low, 100), rational(of.low + of.width, 100)];
  const accuracy = {
    ofReading: rational(of.share, 10_000),
    ofRange: rational(0),
    digits: rational(of.digits),
    constant: rational(of.constant, 1000),
  };
  return {
    limits: {
      ...(of.kind !== 'high' && { low }),
      ...(of.kind !== 'low' && { high }),
      unit: unit('V'),
      resolution: rational(1, 100),
    },
    instrument: { accuracy, resolution: number(of.step) },
  };
}

/** Whether a reading passes by the rule itself: reading -+ U within the tolerance, compared by squares. */
function passes(of: Limits, meter: Instrument, reading: Rational, decision: DecisionRule): boolean {
  const squared = decision === 'simple' ? rational(0) : squaredUncertainty(meter, reading);
  const clear = (distance: Rational): boolean =>
    sign(distance) >= 0 && compare(multiply(distance, distance), squared) >= 0;
  return (!of.low || clear(subtract(reading, of.low))) && (!of.high || clear(subtract(of.high, reading)));
}

describe('any case', () => {
  test('is what trying every reading of the instrument finds', () => {
    fc.assert(
      fc.property(cases, (of) => {
        const { limits: tolerance, instrument: meter } = build(of);
        const found = acceptanceLimits({ limits: tolerance, instrument: meter, decision: of.decision }).limits;
        const step = meter.resolution ?? rational(1);
        const middle = toInteger(divide(rational(of.low, 100), step), 'down');
        const reach = Math.ceil(700 / Math.max(1, toNumber(step) * 100));
        for (let i = -20; i < Math.min(reach, 900); i += 1) {
          const reading = multiply(rational(middle + BigInt(i)), step);
          const verdict = found !== undefined && holdsWithin(found, reading);
          expect(verdict, `${show(reading)} of ${show(found?.low)} to ${show(found?.high)}`).toBe(
            passes(tolerance, meter, reading, of.decision),
          );
        }
      }),
      { ...settings, numRuns: 120 },
    );
  });

  test('passes as printed means that it passes', () => {
    fc.assert(
      fc.property(cases, fc.integer({ min: 0, max: 1000 }), (of, share) => {
        const { limits: tolerance, instrument: meter } = build(of);
        const found = acceptanceLimits({ limits: tolerance, instrument: meter, decision: of.decision }).limits;
        if (!found) return;
        const printed = limits(formatLimits(found));
        const [from, to] = [
          printed.low ?? subtract(printed.high ?? rational(0), rational(1)),
          printed.high ?? add(printed.low ?? rational(0), rational(1)),
        ];
        const step = meter.resolution ?? rational(1);
        const reading = multiply(
          rational(toInteger(divide(add(from, multiply(subtract(to, from), rational(share, 1000))), step), 'nearest')),
          step,
        );
        fc.pre(holdsWithin(printed, reading));
        expect(passes(tolerance, meter, reading, of.decision)).toBe(true);
        expect(holdsWithin(tolerance, reading)).toBe(true);
      }),
      settings,
    );
  });

  test('a larger uncertainty never widens the acceptance, and never narrows what fails for sure', () => {
    fc.assert(
      fc.property(cases, fc.integer({ min: 0, max: 40 }), (of, more) => {
        const [small, large] = [build(of), build({ ...of, constant: of.constant + more })];
        const [a, b] = [small, large].map(({ limits: tolerance, instrument: meter }) =>
          acceptanceLimits({ limits: tolerance, instrument: meter, decision: 'three-zone' }),
        );
        if (b?.limits) {
          expect(a?.limits).toBeDefined();
          if (b.limits.low && a?.limits?.low) expect(compare(b.limits.low, a.limits.low)).not.toBe(-1);
          if (b.limits.high && a?.limits?.high) expect(compare(b.limits.high, a.limits.high)).not.toBe(1);
        }
        if (a?.failing?.low && b?.failing?.low) expect(compare(b.failing.low, a.failing.low)).not.toBe(1);
        if (a?.failing?.high && b?.failing?.high) expect(compare(b.failing.high, a.failing.high)).not.toBe(-1);
      }),
      settings,
    );
  });

  test('turned about zero it is the same turned about zero', () => {
    fc.assert(
      fc.property(cases, (of) => {
        const { limits: tolerance, instrument: meter } = build({ ...of, kind: 'both' });
        const turned: Limits = {
          ...tolerance,
          ...(tolerance.high && { low: negate(tolerance.high) }),
          ...(tolerance.low && { high: negate(tolerance.low) }),
        };
        const [a, b] = [tolerance, turned].map(
          (one) => acceptanceLimits({ limits: one, instrument: meter, decision: of.decision }).limits,
        );
        expect(show(a?.low)).toBe(b?.high ? show(negate(b.high)) : 'none');
        expect(show(a?.high)).toBe(b?.low ? show(negate(b.low)) : 'none');
      }),
      settings,
    );
  });
});

describe('derived values', () => {
  const reading = (low: string, high: string, name = 'display', of = display): DerivedInput => ({
    range: range(low, high),
    instrument: of,
    instrumentName: name,
  });
  const travel = new Map([
    ['on_ground', reading('3.6', '4.2')],
    ['raised', reading('0.7', '1.1')],
  ]);

  test('a difference of two readings by one display: the constant error counts as independent, the larger', () => {
    // u^2 = 2 * 0.02^2 / 3 + 2 * 0.01^2 / 12
    const u = Math.sqrt((2 * 0.02 ** 2) / 3 + (2 * 0.01 ** 2) / 12);
    expectRelative(toNumber(derivedUncertainty(expr('on_ground - raised'), travel) ?? rational(0)), 2 * u, 1e-14, {
      of: 'derivedUncertainty',
      against: 'JCGM 100:2008 (GUM), 5.1.2, worked by hand',
    });
    expect(
      plain(
        derivedAcceptance({
          limits: limits('2.6 to 3.4 V'),
          expr: expr('on_ground - raised'),
          inputs: travel,
          decision: 'guarded',
        })?.limits,
      ),
    ).toBe('2.64 to 3.36 V');
    expect(
      plain(
        derivedAcceptance({
          limits: limits('2.6 to 3.4 V'),
          expr: expr('on_ground - raised'),
          inputs: travel,
          decision: 'simple',
        })?.limits,
      ),
    ).toBe('2.60 to 3.40 V');
  });

  test('a sum of two readings by one display: the constant error counts as shared, the larger', () => {
    const u = Math.sqrt(0.04 ** 2 / 3 + (2 * 0.01 ** 2) / 12);
    expectRelative(toNumber(derivedUncertainty(expr('on_ground + raised'), travel) ?? rational(0)), 2 * u, 1e-14, {
      of: 'derivedUncertainty',
      against: 'JCGM 100:2008 (GUM), 5.2.2, worked by hand',
    });
  });

  test('two instruments are independent', () => {
    const two = new Map([
      ['on_ground', reading('3.6', '4.2', 'display')],
      ['raised', reading('0.7', '1.1', 'meter')],
    ]);
    const u = Math.sqrt((2 * 0.02 ** 2) / 3 + (2 * 0.01 ** 2) / 12);
    for (const text of ['on_ground + raised', 'on_ground - raised'])
      expect(toNumber(derivedUncertainty(expr(text), two) ?? rational(0))).toBeCloseTo(2 * u, 14);
  });

  test('one reading derived is one reading read', () => {
    for (const accuracy of ['± 0.02 V', '0.5 % + 2 digits', '0.3 % + 0.01 V']) {
      const of = instrument(accuracy, '0.01');
      const inputs = new Map([['a', { range: range(4, 4), instrument: of, instrumentName: 'm' }]]);
      expect(toNumber(derivedUncertainty(expr('a'), inputs) ?? rational(0))).toBeCloseTo(
        toNumber(expandedUncertainty(of, number('4'))),
        15,
      );
    }
  });

  test('a parameter that is a range counts as rectangular', () => {
    const inputs = new Map<string, DerivedInput>([
      ['on_ground', reading('3.6', '4.2')],
      ['supply', { range: range('4.9', '5.1') }],
    ]);
    // d(a / s) = da / s - a ds / s^2, at the worst corner of each slope: 1 / 4.9 and 4.2 / 4.9^2
    const u = Math.sqrt((0.02 / 4.9) ** 2 / 3 + (0.01 / 4.9) ** 2 / 12 + ((4.2 / 4.9 ** 2) * 0.1) ** 2 / 3);
    expect(toNumber(derivedUncertainty(expr('on_ground / supply'), inputs) ?? rational(0))).toBeCloseTo(2 * u, 12);
  });

  test('an unbounded slope is said', () => {
    const inputs = new Map<string, DerivedInput>([['x', { ...reading('0', '1') }]]);
    expect(derivedUncertainty(expr('sqrt(x)'), inputs)).toBeUndefined();
    expect(
      derivedAcceptance({ limits: limits('at least 1'), expr: expr('sqrt(x)'), inputs, decision: 'guarded' }),
    ).toBeUndefined();
  });

  test('is no smaller than that of any single reading in the ranges', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 }), fc.integer({ min: 0, max: 10 }), (i, j) => {
        const at = new Map([
          ['a', { ...reading('1', '1'), range: point(1 + i / 16) }],
          ['b', { ...reading('1', '1'), range: point(2 + j / 16) }],
        ]);
        const whole = new Map([
          ['a', { ...reading('1', '1'), range: range(1, '1.625') }],
          ['b', { ...reading('1', '1'), range: range(2, '2.625') }],
        ]);
        for (const text of ['a * b', 'a / b', '(a - b) / b', 'a * a - b']) {
          const [one, all] = [derivedUncertainty(expr(text), at), derivedUncertainty(expr(text), whole)];
          expect(one && all && compare(one, all)).not.toBe(1);
        }
      }),
      settings,
    );
  });
});

function point(value: number) {
  return { low: fromNumber(value), high: fromNumber(value) };
}

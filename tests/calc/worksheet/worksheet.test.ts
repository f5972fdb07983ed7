// Worksheets: computed columns and results against plain floats and finite differences, verdicts against the rules of
// JCGM 106 worked by hand, and rows as they are found while somebody fills them in.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseAccuracy } from '../../../src/calc/accuracy.js';
import type { DecisionRule } from '../../../src/calc/decision-rule.js';
import { readPortable, writePortable } from '../../../src/calc/portable.js';
import { fromNumber, toNumber } from '../../../src/calc/rational.js';
import { fitLine } from '../../../src/calc/statistics/line.js';
import { toBase } from '../../../src/calc/unit.js';
import { judgeEstimate, writeEstimate } from '../../../src/calc/worksheet/judge.js';
import type { Entry, Sheet, SheetColumn, SheetRow } from '../../../src/calc/worksheet/sheet.js';
import type { Worked } from '../../../src/calc/worksheet/work-out.js';
import { workOutSheet } from '../../../src/calc/worksheet/work-out.js';
import { expr, limits, number, range, right, settings, unit } from '../core/reading.js';
import { expectRelative } from '../outside/record.js';

const lb = unit('lb');
const pound = toNumber(lb.factor);

const scale = { accuracy: right(parseAccuracy('0.2 %')), resolution: toBase(number('20'), lb), unit: lb };

/** The loads of a mass flow calibration: `shown` without an instrument counts as exact. */
function loads(more: Partial<Sheet> = {}): Sheet {
  return {
    id: 'loads',
    rows: { min: 3, max: 8 },
    decision: 'guarded',
    parameters: [],
    columns: [
      { id: 'flow', choices: ['low', 'high'] },
      { id: 'shown', unit: lb },
      { id: 'scale', unit: lb, instrument: scale, instrumentName: 'truck-scale' },
      { id: 'error', unit: unit('%'), from: expr('(shown - scale) / scale') },
    ],
    results: [
      { id: 'worst', unit: unit('%'), from: expr('max(abs(error))'), limits: limits('at most 3 %') },
      { id: 'middle', unit: unit('%'), from: expr('mean(error)') },
      { id: 'total', unit: lb, from: expr('sum(scale)') },
      { id: 'number', unit: unit('%'), from: expr('count(scale)') },
      { id: 'steep', unit: unit('%'), from: expr('slope(shown, scale)') },
    ],
    ...more,
  };
}

type Pounds = readonly [flow: string, shown: number | undefined, scale: number | undefined];

function rowsOf(lines: readonly Pounds[]): readonly SheetRow[] {
  return lines.map(([flow, shown, weighed]) => {
    const row = new Map<string, Entry>();
    if (flow !== '') row.set('flow', flow);
    if (shown !== undefined) row.set('shown', toBase(fromNumber(shown), lb));
    if (weighed !== undefined) row.set('scale', toBase(fromNumber(weighed), lb));
    return row;
  });
}

function value(worked: Worked | undefined): number {
  if (worked?.kind !== 'value') throw new Error(`No value: ${worked?.kind}`);
  return toNumber(worked.estimate.value.low);
}

function uncertainty(worked: Worked | undefined): number {
  if (worked?.kind !== 'value') throw new Error(`No value: ${worked?.kind}`);
  return toNumber(worked.estimate.uncertainty);
}

const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u00a0', ' ');

/** The slope of a line through points by another way: orthogonal factors. */
function slopeThrough(points: readonly (readonly [x: number, y: number])[]): number {
  const line = fitLine(
    points.map(([x]) => x),
    points.map(([, y]) => y),
  );
  if (!('slope' in line)) throw new Error('No line through these');
  return line.slope;
}

const four: readonly Pounds[] = [
  ['low', 10_100, 10_000],
  ['high', 20_300, 20_000],
  ['low', 9_900, 10_060],
  ['high', 30_100, 30_000],
];

describe('a worksheet that is filled in', () => {
  const done = workOutSheet(loads(), rowsOf(four));

  test('columns and results are what plain arithmetic makes of the rows', () => {
    const errors = four.map(([, shown = 0, weighed = 0]) => (shown - weighed) / weighed);
    const claim = { of: 'workOutSheet', against: 'the same in floats' };
    for (const [i, error] of errors.entries())
      expectRelative(value(done.rows[i]?.cells.get('error')), error, 1e-14, claim);
    expectRelative(value(done.results.get('worst')), Math.max(...errors.map(Math.abs)), 1e-14, claim);
    expectRelative(value(done.results.get('middle')), errors.reduce((a, b) => a + b) / 4, 1e-13, claim);
    expectRelative(value(done.results.get('total')), 70_060 * pound, 1e-14, claim);
    expect(value(done.results.get('number'))).toBe(4);
    const steep = slopeThrough(four.map(([, y = 0, x = 0]) => [x, y]));
    expectRelative(value(done.results.get('steep')), steep, 1e-13, claim);
  });

  test('the uncertainty of one row is that of its reading times the slope', () => {
    // u of 20,000 lb: e = 0.2 % = 40 lb, r = 20 lb: U = 2 sqrt (40^2 / 3 + 20^2 / 12) = 47.610 lb; d error / d scale = shown / scale^2
    const u = 2 * Math.sqrt(40 ** 2 / 3 + 20 ** 2 / 12);
    expectRelative(uncertainty(done.rows[1]?.cells.get('scale')), u * pound, 1e-14, {
      of: 'workOutSheet',
      against: 'JCGM 100, 4.3.7',
    });
    expectRelative(uncertainty(done.rows[1]?.cells.get('error')), (u * 20_300) / 20_000 ** 2, 1e-14, {
      of: 'workOutSheet',
      against: 'JCGM 100, 5.1.2',
    });
  });

  test('one scale that weighs light makes the mean wrong as a whole: its error does not average out', () => {
    // shared: e of each row is 0.2 % of scale, so that d mean = mean of shown / scale * 0.2 %; resolution stays independent
    const ratios = four.map(([, shown = 0, weighed = 0]) => shown / weighed);
    const shared = (ratios.reduce((a, b) => a + b) / 4) * 0.002;
    const steps = four.map(([, shown = 0, weighed = 0]) => ((shown / weighed ** 2 / 4) * 20) ** 2 / 12);
    const u = Math.sqrt(shared ** 2 / 3 + steps.reduce((a, b) => a + b));
    expectRelative(uncertainty(done.results.get('middle')), 2 * u, 1e-13, {
      of: 'workOutSheet',
      against: 'JCGM 100, 5.2',
    });
  });

  test('only the largest of several brings its uncertainty along', () => {
    // 9,900 against 10,060 is the worst: 1.59 %
    expectRelative(uncertainty(done.results.get('worst')), uncertainty(done.rows[2]?.cells.get('error')), 1e-14, {
      of: 'workOutSheet',
      against: 'the row itself',
    });
  });

  test('passes, and shows two digits of its uncertainty', () => {
    expect(done.verdict).toBe('pass');
    expect(done.lacks).toEqual([]);
    const worst = done.results.get('worst');
    if (worst?.kind !== 'value') throw new Error('no value');
    expect(plain(worst.text.value)).toBe('1.59 %');
    expect(plain(worst.text.uncertainty)).toBe('0.26 %');
    expect(worst.judged?.outcome).toBe('pass');
  });
});

describe('the slope of a column over another', () => {
  const line = fc.array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 50, max: 900 })), {
    minLength: 3,
    maxLength: 8,
  });

  test('has the uncertainty that moving each reading a little shows', () => {
    const sheet = (columns: readonly SheetColumn[]): Sheet =>
      loads({ columns, results: [{ id: 's', unit: unit('%'), from: expr('slope(y, x)') }] });
    const meter = { accuracy: right(parseAccuracy('1 % + 3 digits')), resolution: number('1') };
    fc.assert(
      fc.property(line, (points) => {
        fc.pre(new Set(points.map(([x]) => x)).size > 1);
        const columns = [
          { id: 'x', unit: unit('%'), instrument: meter, instrumentName: 'a' },
          { id: 'y', unit: unit('%') },
        ];
        const rows = points.map(
          ([x, y]) =>
            new Map([
              ['x', number(String(x))],
              ['y', number(String(y))],
            ]),
        );
        const found = workOutSheet(sheet(columns), rows).results.get('s');
        const slopeAt = (move: number, of: number): number =>
          slopeThrough(points.map(([x, y], i) => [i === of ? x + move : x, y]));
        const step = 1e-4;
        const effects = points.map((_, i) => (slopeAt(step, i) - slopeAt(-step, i)) / (2 * step));
        const part = (errors: readonly number[]): number =>
          Math.max(
            Math.abs(effects.reduce((sum, effect, i) => sum + effect * (errors[i] ?? 0), 0)),
            Math.hypot(...effects.map((effect, i) => effect * (errors[i] ?? 0))),
          );
        const e = part(points.map(([x]) => 0.01 * x)) + part(points.map(() => 3));
        const expected = (2 * e) / Math.sqrt(3);
        expect(Math.abs(uncertainty(found) - expected)).toBeLessThanOrEqual(
          1e-5 * Math.max(1, expected) + expected * 1e-5,
        );
      }),
      { ...settings, numRuns: 60 },
    );
  });

  test('has none where all rows have one and the same value', () => {
    const same = workOutSheet(
      loads(),
      rowsOf([
        ['low', 1, 500],
        ['low', 2, 500],
        ['low', 3, 500],
      ]),
    );
    expect(same.results.get('steep')?.kind).toBe('no-value');
    expect(same.verdict).toBe('unfinished');
    expect(same.lacks).toEqual([{ kind: 'no-value', id: 'steep' }]);
  });
});

describe('rows that are not all filled in', () => {
  test('nothing filled in is no result', () => {
    const none = workOutSheet(loads(), []);
    expect(none.results.get('worst')).toEqual({ kind: 'empty' });
    expect(none.lacks).toEqual([{ kind: 'rows', count: 3 }]);
  });

  test('whole rows give results at once, and a verdict only with enough of them', () => {
    const two = workOutSheet(loads(), rowsOf([['', undefined, undefined], ...four.slice(0, 2)]));
    expect(two.rows.map(({ state }) => state)).toEqual(['empty', 'whole', 'whole']);
    expect(two.wholeRows).toBe(2);
    expect(value(two.results.get('worst'))).toBeCloseTo(0.015, 12);
    expect(two.verdict).toBe('unfinished');
    expect(two.lacks).toEqual([{ kind: 'rows', count: 1 }]);
  });

  test('a row that is begun counts for nothing and holds the verdict', () => {
    const begun = workOutSheet(loads(), rowsOf([...four, ['low', 99, undefined], ['', 3, 4]]));
    expect(begun.wholeRows).toBe(4);
    expect(begun.rows[4]?.cells.get('error')).toEqual({ kind: 'empty' });
    expect(begun.rows[5]?.cells.get('error')?.kind).toBe('value');
    expect(begun.lacks).toEqual([
      { kind: 'cells', row: 4, columns: ['scale'] },
      { kind: 'cells', row: 5, columns: ['flow'] },
    ]);
    expect(begun.verdict).toBe('unfinished');
  });

  test('more rows than there may be are no verdict', () => {
    expect(workOutSheet(loads({ rows: { min: 1, max: 3 } }), rowsOf(four)).lacks).toEqual([
      { kind: 'too-many-rows', count: 1 },
    ]);
  });

  test('a division by zero says so and is no verdict', () => {
    const zero = workOutSheet(loads(), rowsOf([...four.slice(0, 3), ['low', 5, 0]]));
    expect(zero.rows[3]?.cells.get('error')).toMatchObject({ kind: 'no-value', why: { message: 'Division by zero' } });
    expect(zero.lacks).toContainEqual({ kind: 'no-value', id: 'error', row: 3 });
    expect(zero.verdict).toBe('unfinished');
  });

  test('a reading that the instrument cannot show is no verdict', () => {
    const narrow = { ...scale, range: { low: toBase(number('0'), lb), high: toBase(number('25000'), lb) } };
    const columns = loads().columns.map((column) =>
      column.id === 'scale' ? { ...column, instrument: narrow } : column,
    );
    const beyond = workOutSheet(loads({ columns }), rowsOf(four));
    expect(beyond.lacks).toEqual([{ kind: 'outside-range', row: 3, columns: ['scale'] }]);
    expect(beyond.verdict).toBe('unfinished');
  });
});

describe('computed columns', () => {
  test('may follow from each other and from parameters, whose width is uncertainty', () => {
    const foot = unit('ft');
    const sheet: Sheet = {
      id: 'strips',
      rows: { min: 1 },
      decision: 'simple',
      // 20 ft +- 0.1 ft in metres
      parameters: [['header.width', range('6.06552', '6.12648')]],
      columns: [
        { id: 'walked', unit: foot },
        { id: 'area', unit: unit('ft^2'), from: expr('walked * header.width') },
        { id: 'half', unit: unit('ft^2'), from: expr('area / 2') },
      ],
      results: [],
    };
    const worked = workOutSheet(sheet, [new Map([['walked', toBase(number('300'), foot)]])]);
    const half = worked.rows[0]?.cells.get('half');
    expectRelative(value(half), 3000 * 0.3048 ** 2, 1e-14, { of: 'workOutSheet', against: 'by hand' });
    // a = 0.1 ft as a rectangle: U = 2 a / sqrt 3, times 150 ft
    expectRelative(uncertainty(half), ((2 * 0.1) / Math.sqrt(3)) * 150 * 0.3048 ** 2, 1e-12, {
      of: 'workOutSheet',
      against: 'JCGM 100, 4.3.7',
    });
    expect(worked.verdict).toBe('recorded');
  });

  test('and written ones with limits are judged cell by cell', () => {
    const columns: readonly SheetColumn[] = [{ id: 'gap', unit: unit('mm'), limits: limits('2 to 3 mm') }];
    const at = (...gaps: string[]) =>
      workOutSheet(
        { id: 'gaps', rows: { min: 2 }, decision: 'guarded', parameters: [], columns, results: [] },
        gaps.map((gap) => new Map([['gap', toBase(number(gap), unit('mm'))]])),
      );
    expect(at('2', '3').verdict).toBe('pass');
    expect(at('2.5', '3.1').verdict).toBe('fail');
    expect([...at('1.9', '2').sides]).toEqual(['low']);
  });
});

describe('the decision rule', () => {
  // U = 0.5 V about limits of 3 to 5 V: acceptance 3.5 to 4.5 V, failing for sure below 2.5 and above 5.5 V (JCGM 106, 8.3; ISO 14253-1)
  test.each<[DecisionRule, string, string]>([
    ['simple', '2.99', 'fail'],
    ['simple', '3', 'pass'],
    ['simple', '5', 'pass'],
    ['simple', '5.01', 'fail'],
    ['guarded', '3.49', 'fail'],
    ['guarded', '3.5', 'pass'],
    ['guarded', '4.5', 'pass'],
    ['guarded', '4.51', 'fail'],
    ['three-zone', '2.49', 'fail'],
    ['three-zone', '2.5', 'unsure'],
    ['three-zone', '3.49', 'unsure'],
    ['three-zone', '3.5', 'pass'],
    ['three-zone', '5.5', 'unsure'],
    ['three-zone', '5.51', 'fail'],
  ])('%s: %s V is %s', (decision, reading, outcome) => {
    const estimate = { value: range(reading, reading), uncertainty: number('0.5') };
    const judged = judgeEstimate(estimate, limits('3 to 5 V'), decision);
    expect(judged.outcome).toBe(outcome);
    expect(judged.side).toBe(outcome === 'pass' ? undefined : Number(reading) < 4 ? 'low' : 'high');
  });

  test('an uncertainty that eats the tolerance passes nothing', () => {
    const judged = judgeEstimate({ value: range('4', '4'), uncertainty: number('2') }, limits('3 to 5 V'), 'guarded');
    expect(judged).toEqual({ outcome: 'fail', side: 'high' });
  });

  test('what is shown never says anything else than the verdict', () => {
    const volts = unit('V');
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 8_000_000 }),
        fc.integer({ min: 0, max: 900_000 }),
        fc.constantFrom<DecisionRule>('simple', 'guarded', 'three-zone'),
        (millionths, guard, decision) => {
          const of = limits('3 to 5 V');
          const estimate = {
            value: range(millionths / 1e6, millionths / 1e6),
            uncertainty: number(String(guard / 1e6)),
          };
          const judged = judgeEstimate(estimate, of, decision);
          const text = writeEstimate(estimate, volts, { limits: of, ...(judged.inUse && { inUse: judged.inUse }) });
          const shown = number(text.value.split('\u00a0')[0] ?? '');
          const again = judgeEstimate(
            { value: { low: shown, high: shown }, uncertainty: estimate.uncertainty },
            of,
            decision,
          );
          expect(again.outcome === 'pass').toBe(judged.outcome === 'pass');
        },
      ),
      settings,
    );
  });
});

test('works the same after the way to a phone', () => {
  const there = readPortable<Sheet>(writePortable(loads()));
  expect(workOutSheet(there, rowsOf(four))).toEqual(workOutSheet(loads(), rowsOf(four)));
});

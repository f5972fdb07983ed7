import { describe, expect, it } from 'vitest';
import { readPortable, writePortable } from '../../src/calc/portable.js';
import { fromDecimal, toNumber } from '../../src/calc/rational.js';
import type { Sheet } from '../../src/calc/worksheet/sheet.js';
import { workOutSheet } from '../../src/calc/worksheet/work-out.js';
import { portableSheet } from '../../src/emit/portable-worksheet.js';
import { type Changes, learn, plain, procedureFor, workOut } from './resolved.js';

const inLearn = (...pairs: readonly (readonly [string, string])[]): Changes => ({ [learn]: pairs });
const id = 'learn-height-range';
const ground = 'limits: header.on_ground                     #';
const travel = 'limits: 2.6 to 3.4 V';
const values = (adjuster: string): Changes => inLearn(['steps:\n', `${adjuster}steps:\n`]);

describe('check values', () => {
  it('have the limits in use of their instrument, and the book limits', () => {
    const { values: found } = procedureFor(workOut(), id, 'tarn-40');
    // a display of ± 0.02 V and 0.01 V: U = 2 √(0.02²/3 + 0.01²/12) = 0.0238 V (JCGM 100, 4.3.7), rounded inward to 0.01 V
    expect(
      found.map((value) => [value.id, plain(value.shown.acceptance ?? ''), plain(value.shown.tolerance ?? '')]),
    ).toEqual([
      ['on_ground', '3.63 to 4.17 V', '3.6 to 4.2 V'],
      ['raised', '0.73 to 1.07 V', '0.7 to 1.1 V'],
      ['travel', '2.64 to 3.36 V', '2.6 to 3.4 V'],
    ]);
    expect(found.map((value) => [value.readAt, value.instrument?.id, value.needs.map(({ state }) => state)])).toEqual([
      ['cab', 'display', ['electrics']],
      ['cab', 'display', ['electrics']],
      [undefined, undefined, []],
    ]);
    expect(found[2]?.derived?.inputs).toEqual(['on_ground', 'raised']);
    expect(toNumber(found[0]?.uncertainty?.low ?? { num: 0n, den: 1n })).toBeCloseTo(0.0238, 4);
  });

  it('tell which parameters they use', () => {
    const { parameters } = procedureFor(workOut(), id, 'tarn-60');
    expect([...parameters.keys()].sort()).toEqual(['header.on_ground', 'machine.sensor_reads']);
  });

  it('keep the place of the entry that holds', () => {
    const { values: found } = procedureFor(workOut(), id, 'tarn-60');
    const text = workOut().book.book.procedures.get(id)?.values[1]?.limits;
    const entries = text?.kind === 'choice' ? text.entries : [];
    expect(found[1]?.limitsAt).toEqual(entries[1]?.value.at);
  });

  it.each<[string, Changes, string, string]>([
    [
      'limits of another quantity',
      inLearn([ground, 'limits: 3.6 to 4.2 m  #']),
      'unit-mismatch: 3.6 to 4.2 m',
      'Unexpected length, expected voltage',
    ],
    [
      'a nominal of another quantity',
      inLearn([ground, `nominal: 4 ohm\n    ${ground}`]),
      'unit-mismatch: 4 ohm',
      'Unexpected resistance, expected voltage',
    ],
    [
      'a band of another quantity',
      inLearn(['inside: machine.sensor_reads                 #', 'inside: 0 to 5 A  #']),
      'unit-mismatch: 0 to 5 A',
      'Unexpected current, expected voltage',
    ],
    [
      'a unit of another quantity',
      inLearn([ground, `unit: m\n    ${ground}`]),
      'unit-mismatch: m',
      '`m` is no unit of what `on_ground` is',
    ],
    [
      'limits of a derived value',
      inLearn([travel, 'limits: 2.6 to 3.4 m']),
      'unit-mismatch: 2.6 to 3.4 m',
      'Unexpected length, expected voltage',
    ],
    [
      'a quantity of a derived value',
      inLearn([travel, `quantity: length\n    ${travel}`]),
      'unit-mismatch: on_ground - raised',
      '`travel` is said to be a length, and `on_ground - raised` comes to a voltage',
    ],
    [
      'limits that are reversed',
      inLearn([travel, 'limits: 3.4 to 2.6 V']),
      'limits-reversed: 3.4 to 2.6 V',
      'The lower limit of `3.4 to 2.6 V` is above the upper one',
    ],
    [
      'limits that come out empty',
      inLearn([travel, 'limits: 0.9 * machine.sensor_reads to 3.4 V']),
      'limits-empty: 0.9 * machine.sensor_reads to 3.4 V',
      'Nothing lies within `0.9 * machine.sensor_reads to 3.4 V`: its lower end comes to more than its upper end',
    ],
    [
      'a nominal that is a range',
      inLearn([ground, `nominal: 3.8 to 4.0 V\n    ${ground}`]),
      'not-a-single-number: 3.8 to 4.0 V',
      'The nominal value of `on_ground` is a range, expected one number',
    ],
    [
      'limits that the instrument leaves nothing of',
      inLearn([travel, 'limits: 2.6 to 2.62 V']),
      'acceptance-empty: 2.6 to 2.62 V',
      'Nothing is left of the limits 2.60 to 2.62 V of `travel` after the uncertainty of its inputs, 0.034 V, is taken off at each end',
    ],
    [
      'a time that is none',
      inLearn([
        '    hold: 2 to 3 s\n    expect: The display shows **LOW',
        '    hold: 2 to 3 m\n    expect: The display shows **LOW',
      ]),
      'unit-mismatch: 2 to 3 m',
      'Unexpected length, expected time',
    ],
    [
      'a condition of another quantity',
      inLearn(['at least 100 degF', 'at least 100 psi']),
      'unit-mismatch: at least 100 psi',
      'Unexpected pressure, expected temperature',
    ],
  ])('%s', (_, changes, found, message) => {
    const worked = workOut(changes);
    expect(worked.read.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(worked.found).toEqual([found]);
    expect(plain(worked.diagnostics[0]?.message ?? '')).toBe(message);
    expect(worked.diagnostics[0]?.rigs).toEqual([]);
  });

  it.each([
    ['2.6 V / (1 - 1) to 3.4 V', 'number-without-value: (1 - 1)'],
    ['sqrt(-4) * 1 V to 3.4 V', 'number-without-value: -4'],
  ])('%s has no value', (text, found) => {
    expect(workOut(inLearn([travel, `limits: ${text}`])).found).toEqual([found]);
  });

  it('cannot calculate with a parameter that has one end alone', () => {
    const worked = workOut({
      'machines/tarn-40.yaml': [
        ['  sensor_reads: 0.25 to 4.75 V', '  sensor_reads: 0.25 to 4.75 V\n  supply: at least 4.9 V'],
      ],
      'machines/tarn-60.yaml': [
        ['  sensor_reads: 0.25 to 4.75 V', '  sensor_reads: 0.25 to 4.75 V\n  supply: 4.9 to 5.1 V'],
      ],
      [learn]: [[travel, 'limits: 0.5 * machine.supply to 3.4 V']],
    });
    expect(worked.found).toEqual(['number-without-value: machine.supply']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-40+row-12x20']);
  });

  it('offers reversed limits the right way round', () => {
    const [diagnostic] = workOut(inLearn([travel, 'limits: 3.4 to 2.6 V'])).diagnostics;
    expect(diagnostic?.fixes?.[0]?.title).toBe('Write `2.6 to 3.4 V`');
  });

  it('says which rigs a fault is for', () => {
    const worked = workOut(inLearn(['tarn-60: 0.7 to 1.0 V', 'tarn-60: 1.0 to 0.7 V']));
    expect(worked.found).toEqual(['limits-reversed: 1.0 to 0.7 V']);
    expect(worked.diagnostics[0]?.rigs).toEqual(['tarn-60+row-12x20']);
  });

  it('wants a unit from somewhere', () => {
    const worked = workOut(inLearn(['steps:\n', '  odd:\n    label: An odd one\n    quantity: length\nsteps:\n']));
    expect(worked.found).toEqual(['value-without-unit: odd']);
  });

  it('shows both systems where the unit has two', () => {
    const worked = workOut(
      inLearn(
        ['steps:\n', '  gap:\n    label: Gap\n    limits: 0.50 to 1.00 in\nsteps:\n'],
        ['The display reads {raised}', 'It reads {raised} and {gap}, {gap.tolerance}'],
      ),
    );
    expect(worked.found).toEqual([]);
    const gap = procedureFor(worked, id, 'tarn-40').values.find((value) => value.id === 'gap');
    expect(Object.fromEntries(Object.entries(gap?.shown ?? {}).map(([key, text]) => [key, plain(text)]))).toEqual({
      acceptance: '0.50 to 1.00 in',
      tolerance: '0.50 to 1.00 in',
      other: '12.7 to 25.4 mm',
    });
    expect(procedureFor(worked, id, 'tarn-40').prose.en?.map(({ markdown }) => plain(markdown).trim())[0]).toBe(
      'It reads 0.73 to 1.07 V and 0.50 to 1.00 in (12.7 to 25.4 mm), 0.50 to 1.00 in (12.7 to 25.4 mm) with the header at the top.',
    );
  });

  it('judges temperatures as points and their differences as differences', () => {
    const more = `  cold:\n    label: Cold\n    quantity: temperature\n    limits: 10 to 20 degC\n  warm:\n    label: Warm\n    quantity: temperature\n    limits: 40 to 60 degC\n  rise:\n    label: Rise\n    from: warm - cold\n    limits: 25 to 45 degC\nsteps:\n`;
    const worked = workOut(inLearn(['steps:\n', more]));
    expect(worked.found).toEqual([]);
    const rise = procedureFor(worked, id, 'tarn-40').values.find((value) => value.id === 'rise');
    expect(toNumber(rise?.tolerance?.low ?? { num: 0n, den: 1n })).toBe(25);
  });
});

describe('parameters', () => {
  const header = 'headers/row-12x20.yaml';

  it('are looked at whether or not they are used', () => {
    const worked = workOut({ [header]: [['  row_spacing: 20 in', '  row_spacing: 20 in + 3 V']] });
    expect(worked.found.map((one) => one.split(':')[0])).toEqual(['unit-mismatch']);
    expect(worked.diagnostics[0]?.rigs).toEqual([]);
  });

  it('that a fault leaves without a value do not make other faults', () => {
    const worked = workOut({ [header]: [['  on_ground: 3.6 to 4.2 V', '  on_ground: 4.2 to 3.6 V']] });
    expect(worked.found).toEqual(['limits-reversed: 4.2 to 3.6 V']);
  });

  it('are missing for the headers that have them not', () => {
    const worked = workOut({
      'headers/platform-30.yaml': [['  on_ground: 3.5 to 4.1 V\n', '']],
      [learn]: [['  header: { type: row }\n', '']],
    });
    expect(worked.found).toEqual(['missing-parameter: header.on_ground']);
    expect(worked.diagnostics[0]).toMatchObject({
      message: '`platform-30` has no parameter `on_ground`',
      rigs: ['tarn-40+platform-30'],
    });
  });

  it('of a crop are reached by its name', () => {
    const worked = workOut({
      'crops.yaml': 'corn: { label: Corn, mass: 56 lb/bu, base-moisture: 15.5 %, source: USDA }\n',
      [learn]: [
        ['steps:\n', '  load:\n    label: Load\n    limits: 10 bu * crop.corn.mass to 12 bu * corn.mass\nsteps:\n'],
      ],
    });
    expect(worked.found).toEqual([]);
    const load = procedureFor(worked, id, 'tarn-40').values.find((value) => value.id === 'load');
    // 560 lb at 0.45359237 kg (NIST SP 811)
    expect(toNumber(load?.tolerance?.low ?? { num: 0n, den: 1n })).toBeCloseTo(254.0117272, 6);
  });

  it('that must agree measure the same', () => {
    const worked = workOut({ [header]: [['equals: rows * row_spacing', 'equals: rows * rows']] });
    expect(worked.found).toEqual(['unit-mismatch: rows * rows']);
    expect(plain(worked.diagnostics[0]?.message ?? '')).toBe(
      '`working_width` is a length and `rows * rows` a number: they cannot agree',
    );
  });

  // within 0.5 % of 20 ft is 0.1 ft
  it.each([
    ['working_width: 20 ft', 'working_width: 20.1 ft', []],
    ['working_width: 20 ft', 'working_width: 20.2 ft', ['numbers-disagree: working_width']],
    ['working_width: 20 ft', 'working_width: 6.096 m', []],
    ['working_width: 20 ft', 'working_width: 19 to 21 ft', []],
    ['rows: 12', 'rows: { tarn-40: 12, other: 13 }', ['numbers-disagree: working_width']],
    ['within: 0.5 %', 'within: 6 ft', []],
    ['within: 0.5 %', 'within: 6 V', ['unit-mismatch: 6 V']],
    ['within: 0.5 %', 'within: 1 / 0', ['number-without-value: 0']],
  ])('that must agree: %s → %s', (from, to, found) => {
    expect(workOut({ [header]: [[from, to]] }).found).toEqual(found);
  });

  it('that must agree are held against each other rig by rig', () => {
    const wide = '{ tarn-40: 20 ft, tarn-60: 30 ft }';
    const apart = '{ tarn-40: 20 in, tarn-60: 30 in }';
    const worked = workOut({
      [header]: [
        ['working_width: 20 ft', `working_width: ${wide}`],
        ['row_spacing: 20 in', `row_spacing: ${apart}`],
      ],
    });
    expect(worked.found).toEqual([]);
    const crossed = workOut({ [header]: [['row_spacing: 20 in', `row_spacing: ${apart}`]] });
    expect(crossed.diagnostics.map(({ message, rigs }) => [plain(message), rigs])).toEqual([
      [
        '`working_width` is 20 ft, and `rows * row_spacing` comes to 30 ft, further apart than 0.5 %',
        ['tarn-60+row-12x20'],
      ],
    ]);
  });
});

describe('instruments', () => {
  it.each([
    ['range: 0 to 6 V', 'range: 0 to 6 A', 'unit-mismatch: 0 to 6 A'],
    ['resolution: 0.001 V', 'resolution: 0.001 A', 'unit-mismatch: 0.001 A'],
    ['resolution: 0.001 V', 'resolution: 0.001 to 0.002 V', 'not-a-single-number: 0.001 to 0.002 V'],
    ['accuracy: 0.5 % + 2 digits', 'accuracy: ± 0.5 A', 'unit-mismatch: ± 0.5 A'],
    ['accuracy: 0.5 % + 2 digits', 'accuracy: 0.5 percent', 'unreadable-accuracy: percent'],
  ])('%s → %s', (from, to, found) => {
    expect(workOut({ 'instruments.yaml': [[from, to]] }).found).toEqual([found]);
  });
});

describe('adjusters', () => {
  const adjuster = (moves: string, smallest = '0.5 deg'): Changes =>
    values(`adjusters:
  sensor_turn:
    label: Turn the sensor body
    range: -12 to 12 deg
    smallest: ${smallest}
    positive: clockwise
    moves: { ${moves} }
    watch: on_ground
`);

  it('move values by so much for one base unit of turn', () => {
    const worked = workOut(adjuster('on_ground: 0.45 V for 10 deg, raised: 0.045 V/deg'));
    expect(worked.found).toEqual([]);
    const [found] = procedureFor(worked, id, 'tarn-40').adjusters;
    // 0.045 V for a degree is 16.2 V for a revolution, the base unit of angle
    expect([...(found?.moves ?? [])].map(([name, { low, high }]) => [name, toNumber(low), toNumber(high)])).toEqual([
      ['on_ground', 16.2, 16.2],
      ['raised', 16.2, 16.2],
    ]);
    expect([found?.shown.range, found?.shown.smallest].map((text) => plain(text ?? ''))).toEqual([
      '-12 to 12 deg',
      '0.5 deg',
    ]);
    expect(found?.watch).toBe('on_ground');
  });

  it('move a value in its own unit', () => {
    const worked = workOut(adjuster('on_ground: 0.45 m for 10 deg'));
    expect(worked.found).toEqual(['unit-mismatch: 0.45 m for 10 deg']);
    expect(plain(worked.diagnostics[0]?.message ?? '')).toBe(
      '`0.45 m for 10 deg` is a length per angle, expected a voltage per angle: how far one turn moves `on_ground`',
    );
  });

  it('have one smallest turn above zero, in the unit of the range', () => {
    expect(workOut(adjuster('raised: 0.045 V/deg', '0 deg')).found).toEqual(['not-a-single-number: 0 deg']);
    expect(workOut(adjuster('raised: 0.045 V/deg', '1 mm')).found).toEqual(['unit-mismatch: 1 mm']);
  });
});

describe('worksheets', () => {
  const sheet = (error: string, worst: string, rows = '4 to 8'): Changes =>
    values(`worksheets:
  loads:
    rows: ${rows}
    columns:
      flow:  { label: Flow, choices: [low, medium, high] }
      shown: { label: Mass on the display, unit: lb }
      scale: { label: Scale ticket, unit: lb }
      error: { label: Error, from: ${error}, unit: "%" }
    results:
      worst: { label: Largest error, from: ${worst}, limits: at most 3 % }
`);

  it('compute columns and results', () => {
    const worked = workOut(sheet('(shown - scale) / scale', 'max(abs(error))'));
    expect(worked.found).toEqual([]);
    const [loads] = procedureFor(worked, id, 'tarn-40').worksheets;
    expect(loads?.rows).toEqual({ min: 4, max: 8 });
    expect(loads?.columns.map(({ unit }) => unit?.symbol)).toEqual([undefined, 'lb', 'lb', '%']);
    expect(plain(loads?.results[0]?.shown ?? '')).toBe('at most 3 %');
  });

  it.each([
    ['a column of another unit', '(shown - scale) * scale', 'max(abs(error))', 'unit-mismatch: "%"'],
    ['a result of one row', '(shown - scale) / scale', 'error * 2', 'unit-mismatch: error * 2'],
    ['a name that is no column', '(shown - scal) / scale', 'max(abs(error))', 'unknown-value: scal'],
    ['a column of words', '(shown - flow) / scale', 'max(abs(error))', 'number-without-value: flow'],
    ['a column that follows from itself', '(shown - scale) / error', 'max(abs(error))', 'number-without-value: error'],
    [
      'a result that follows from itself',
      '(shown - scale) / scale',
      'max(abs(error)) / worst',
      'number-without-value: worst',
    ],
    [
      'a column that follows from a result',
      '(shown - scale) / worst',
      'max(abs(error))',
      'number-without-value: worst',
    ],
  ])('%s', (_, error, worst, found) => {
    expect(workOut(sheet(error, worst)).found).toEqual([found]);
  });

  it('name no parameter that has one end only', () => {
    const change = sheet('(shown - scale) / scale + machine.least / scale', 'max(abs(error))');
    const worked = workOut({
      ...change,
      'machines/tarn-40.yaml': [['parameters:\n', 'parameters:\n  least: at least 5 lb\n']],
      'machines/tarn-60.yaml': [['parameters:\n', 'parameters:\n  least: at least 5 lb\n']],
    });
    expect(worked.found).toEqual(['number-without-value: machine.least']);
  });

  it('are worked out from what is carried to a phone', () => {
    const change = values(`worksheets:
  gaps:
    rows: 2
    columns:
      gap: { label: Gap, unit: V, read-with: display, limits: { tarn-40: 1 to 2 V, tarn-60: 1 to 3 V } }
      part: { label: Part, from: gap / machine.sensor_reads, unit: "%" }
    results:
      widest: { label: Widest, from: max(part), unit: "%" }
      twice: { label: Twice that, from: 2 * widest, unit: "%" }
`);
    const worked = workOut(change);
    expect(worked.found).toEqual([]);
    const outcome = (machine: string, ...gaps: readonly string[]) => {
      const [gap] = procedureFor(worked, id, machine).worksheets;
      if (!gap) throw new Error('No worksheet');
      const sheetThere = readPortable<Sheet>(writePortable(portableSheet(gap)));
      return workOutSheet(
        sheetThere,
        gaps.map((text) => new Map([['gap', fromDecimal(text) ?? text]])),
      );
    };
    // U of the display is 0.0238 V, so that 2 V passes to 1.97 V; a parameter counts in its middle, 2.5 V
    expect(outcome('tarn-40', '1.5', '1.97').verdict).toBe('pass');
    expect(outcome('tarn-40', '1.5', '1.98').verdict).toBe('fail');
    expect(outcome('tarn-60', '1.5', '1.98').verdict).toBe('pass');
    expect(outcome('tarn-60', '1.5', '2.98').verdict).toBe('fail');
    const twice = outcome('tarn-40', '1.5', '1.97').results.get('twice');
    expect(twice?.kind === 'value' && toNumber(twice.estimate.value.low)).toBeCloseTo((2 * 1.97) / 2.5, 12);
  });

  it('have whole numbers of rows', () => {
    expect(workOut(sheet('(shown - scale) / scale', 'max(abs(error))', '4.5')).found).toEqual([
      'not-a-single-number: 4.5',
    ]);
  });
});

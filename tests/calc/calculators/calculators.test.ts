// The calculators of the site against the tables and examples that their pages name as sources, and what may be typed.

import { describe, expect, test } from 'vitest';
import { type Calculated, calculate, exampleOf, type Typed } from '../../../src/calc/calculators/calculate.js';
import { compileCalculator } from '../../../src/calc/calculators/compile.js';
import { calculators } from '../../../src/calc/calculators/definitions.js';
import { calibrateLoads, exampleLoads } from '../../../src/calc/calculators/loads.js';
import { readNumber } from '../../../src/calc/calculators/read-number.js';
import { namesIn } from '../../../src/calc/expression/names.js';
import { noUnit } from '../../../src/calc/unit.js';
import { show, unit } from '../core/reading.js';

function worked(id: string, typed: Readonly<Record<string, string | Typed>> = {}): Calculated {
  const found = calculators.find((one) => one.id === id);
  if (!found) throw new Error(`No calculator ${id}`);
  const calculator = compileCalculator(found);
  const all = new Map(exampleOf(calculator));
  for (const [name, to] of Object.entries(typed)) {
    const symbol = all.get(name)?.unit ?? '';
    all.set(name, typeof to === 'string' ? { text: to, unit: symbol } : to);
  }
  return calculate(calculator, all);
}

function values(
  id: string,
  typed: Readonly<Record<string, string | Typed>> = {},
): Readonly<Record<string, readonly string[]>> {
  const { results, faults } = worked(id, typed);
  expect([...faults]).toEqual([]);
  return Object.fromEntries(
    results.map((result) => [
      result.name,
      'why' in result
        ? [result.why.message]
        : result.values.map(({ value, uncertainty, range }) =>
            [value, uncertainty && `± ${uncertainty}`, range && `in ${range}`]
              .filter(Boolean)
              .join(' ')
              .replaceAll('\u00a0', ' '),
          ),
    ]),
  );
}

describe('every calculator', () => {
  test.each(calculators.map((calculator) => [calculator.id, calculator] as const))(
    '%s works out its example',
    (_, calculator) => {
      const compiled = compileCalculator(calculator);
      const { results, faults } = calculate(compiled, exampleOf(compiled));
      expect([...faults]).toEqual([]);
      for (const result of results) expect('values' in result && result.values.length, result.name).toBeGreaterThan(0);
      const used = new Set(compiled.outcomes.flatMap(({ expr }) => namesIn(expr).map(({ path }) => path)));
      expect(compiled.fields.map(({ name }) => name).filter((name) => !used.has(name))).toEqual([]);
    },
  );
});

describe('a number that cannot be', () => {
  test.each([
    ['width-area', 'rows', '-3'],
    ['width-area', 'rows', '12 ± 12'],
    ['width-area', 'spacing', '0'],
    ['speed', 'time', '0'],
    ['speed', 'time', '-4'],
    ['shrink', 'moisture', '100'],
    ['shrink', 'base', '120'],
    ['loss', 'behind', '-1'],
    ['voltage', 'reading', '-1'],
    ['voltage', 'high', '101'],
    ['following', 'steepness', '0'],
  ])('%s: %s is not %s', (id, field, text) => {
    const { faults, results } = worked(id, { [field]: text });
    expect(faults.get(field)?.kind).toBe('bound');
    expect(results).toEqual([]);
  });

  test.each([
    ['width-area', 'rows', '1'],
    ['shrink', 'moisture', '0'],
    ['voltage', 'reading', '0'],
    ['voltage', 'high', '100'],
    ['loss', 'before', '120'],
  ])('%s: %s may be %s', (id, field, text) => {
    expect([...worked(id, { [field]: text }).faults]).toEqual([]);
  });

  test('is more seeds before the machine than behind it', () => {
    expect(worked('loss', { before: '121' }).faults.get('before')).toEqual({ kind: 'larger', than: 'behind' });
  });

  test('stands beyond the same bound in another unit', () => {
    expect(worked('width-area', { spacing: { text: '-1', unit: 'cm' } }).faults.get('spacing')?.kind).toBe('bound');
  });
});

describe('against sources', () => {
  // Purdue Extension: eight 30-in rows are 20 ft; IFAS AG126: 20 ft by 1320 ft are 0.606 ac.
  test('width and area', () => {
    expect(values('width-area', { rows: '8', spacing: '30' })).toEqual({
      width: ['20 ft', '6.096 m'],
      area: ['0.6061 ac', '0.2453 ha'],
    });
  });

  // Iowa State Univ. Extension, Ag Decision Maker A3-24, table 1: 88 ft in 12 s are 5 mph; 88 ft take 15 s at 4 mph.
  test('speed from seconds', () => {
    expect(values('speed')).toEqual({ speed: ['5 mph', '8.047 km/h'], seconds: ['15 s'] });
    expect(values('speed', { distance: '11', time: '3' }).speed).toEqual(['2.5 mph', '4.023 km/h']);
  });

  // Purdue Extension, Wandering Swath Width Syndrome: 17.5 ft logged, 20 ft cut: yield 14.29 % too high, area 12.5 % too low.
  test('width error', () => {
    expect(values('width-error')).toEqual({ area_error: ['-12.5 %'], yield_error: ['14.29 %'] });
  });

  // South Dakota State Univ. Extension (D. Karki, 2020): 25 to 15.5 % is 11.24 %; 100 wet bushels at 20 % are 94.67.
  test('shrink and dry bushels', () => {
    expect(values('shrink', { moisture: '25' }).shrink).toEqual(['11.24 %']);
    expect(values('shrink', { mass: '5600' }).dry_bushels).toEqual(['94.67 bu']);
  });

  // Univ. of Georgia Extension via Purdue: 20 kernels in 2.5 ft by 4 ft are 1 bu/ac, rounded from 90,000 kernels a bushel;
  // small-grains guides: what lies behind a 30-ft machine that spreads over 5 ft is six times too many.
  test('loss from counts', () => {
    const even = { cut: '30', spread: '30' };
    expect(values('loss', { behind: '20', ...even }).loss).toEqual(['0.968 bu/ac']);
    expect(values('loss', { behind: '120' })).toEqual(values('loss', { behind: '20', ...even }));
    expect(values('loss', { behind: '25', before: '5', ...even }).loss).toEqual(['0.968 bu/ac']);
    expect(values('loss', { behind: '20', ...even, seeds: '87120' })).toEqual({
      loss: ['1 bu/ac'],
      loss_mass: ['56 lb/ac', '62.77 kg/ha'],
    });
  });

  // A linear sensor of 0.5 V at -45 deg and 4.5 V at 45 deg has 44.4 mV/deg (by definition).
  test('sensor turn', () => {
    expect(values('sensor-turn', { reading: '2.5', aim: '2.944', moves: '0.0444' })).toEqual({ turn: ['10 deg'] });
  });

  // A ratiometric output of 10 to 90 % is 0.475 to 0.525 V at 4.75 to 5.25 V below, 4.275 to 4.725 V above (by definition).
  test('voltage window', () => {
    expect(values('voltage', { supply: '5 ± 0.25', reading: '2.5' })).toEqual({
      at_low: ['0.500 V ± 0.029 V in 0.475 to 0.525 V'],
      at_high: ['4.50 V ± 0.26 V in 4.27 to 4.73 V'],
      share: ['50.0 % ± 3.2 % in 47.6 to 52.7 %'],
    });
  });

  // v = rate / slope: 0.15 m/s on 10 % is 1.5 m/s or 3.355 mph; the delay alone: 2 in / (0.3 s * 10 %) (kinematics).
  test('speed that the height can follow', () => {
    const found = values('following', { rate: { text: '0.15', unit: 'm/s' } });
    expect(found.by_rate).toEqual(['3.355 mph', '5.4 km/h']);
    expect(found.by_delay).toEqual(['3.788 mph', '6.096 km/h']);
    expect(found.speed).toEqual(found.by_rate);
  });
});

describe('what may be typed', () => {
  const read = (text: string, symbol: string): string => {
    const found = readNumber(text, symbol === '' ? noUnit : unit(symbol));
    return found ? `${show(found.low)} to ${show(found.high)}` : 'nothing';
  };

  test.each([
    ['20', 'in', '127/250 to 127/250'],
    ['20 ± 0.25', 'in', '10033/20000 to 10287/20000'],
    ['20 +/- 0.25', 'in', '10033/20000 to 10287/20000'],
    ['20 ± 2 %', 'in', '6223/12500 to 6477/12500'],
    ['15 ± 1/2 %', '%', '29/200 to 31/200'],
    ['3,6', 'm', '18/5 to 18/5'],
    ['3.6 m', 'm', '18/5 to 18/5'],
    ['3 1/8', 'in', '127/1600 to 127/1600'],
    ['-3 1/8', 'in', '-127/1600 to -127/1600'],
    ['\u22123', 'm', '-3 to -3'],
    ['15.5 %', '%', '31/200 to 31/200'],
    ['12', '', '12 to 12'],
    ['1,250', 'ft', 'nothing'],
    ['1,2,3', 'ft', 'nothing'],
    ['5 V', 'm', 'nothing'],
    ['1/0', 'm', 'nothing'],
    ['20 ± -1', 'm', 'nothing'],
    ['20 ±', 'm', 'nothing'],
    ['', 'm', 'nothing'],
    ['1e400', 'm', 'nothing'],
    ['NaN', 'm', 'nothing'],
  ])('%s in %s', (text, symbol, expected) => {
    expect(read(text, symbol)).toBe(expected);
  });

  test('a division by zero is no number', () => {
    expect(values('sensor-turn', { moves: '0' }).turn).toEqual(['Division by zero']);
    expect(worked('speed', { time: 'x' }).faults.has('time')).toBe(true);
  });
});

describe('weighed loads', () => {
  // Invented loads, exact arithmetic: 3100, 4050, 5200, 6100 shown, 3000, 4000, 5000, 6000 weighed.
  test('give the factor, the errors and the rest of each', () => {
    const found = calibrateLoads(exampleLoads);
    expect(found?.slope).toBeCloseTo(0.9760420994322117, 12);
    expect(found?.factor).toMatch(/^0\.9760 ± 0\.0\d+$/);
    expect(found?.errors).toEqual(['3.3 %', '1.3 %', '4.0 %', '1.7 %']);
    expect(found?.worst).toBe('4.0 %');
    expect(found?.residuals).toEqual(
      exampleLoads.map(({ shown, scale }) => String(Math.round(scale - 0.9760420994322117 * shown))),
    );
    expect(found?.spoiler).toBeUndefined();
  });

  test('tell the one that the others do not bear out', () => {
    const loads = [1000, 2000, 3000, 4000, 5000, 6000].map((shown, i) => ({
      shown,
      scale: shown * (i === 2 ? 1.2 : 1 + i * 1e-4),
    }));
    expect(calibrateLoads(loads)?.spoiler).toBe(2);
    expect(calibrateLoads(loads.slice(0, 1))).toBeUndefined();
    expect(calibrateLoads(loads.slice(0, 2).map(({ scale }) => ({ shown: 1000, scale })))?.line).toBeUndefined();
  });
});

// Adjusters: worked cases, then brute force over every setting in exact whole numbers as the second method.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Adjuster, buildProblem } from '../../../src/calc/adjusters/problem.js';
import { hasSetting } from '../../../src/calc/adjusters/search.js';
import { type Adjustment, solveAdjustment } from '../../../src/calc/adjusters/solve.js';
import { settings } from '../interval/exact.js';
import { note } from '../outside/record.js';

const bruteForce = { of: 'solveAdjustment', against: 'brute force over all settings', deviation: 0, unit: 'exact' };

function found(adjustment: Adjustment) {
  if (adjustment.kind !== 'found') throw new Error(`Expected a setting, got ${JSON.stringify(adjustment)}`);
  return adjustment;
}

// A sensor body that turns in its slots: it moves what the sensor reads on the ground and, less, raised.
const sensorTurn: Adjuster = { low: -12, high: 12, smallest: 0.5 };

describe('one adjuster', () => {
  test('the middle of the limits, to the nearest step', () => {
    const result = found(solveAdjustment([sensorTurn], [{ reading: 3.2, low: 3.6, high: 4.2, effects: [0.045] }]));
    // 0.7 V to the middle of 3.9 V are 15.6 deg, of which 12 deg are there: 3.74 V, margin 0.14 of 0.3 V.
    expect(result.turns[0]).toEqual({ by: 12, steps: 24, least: 9, most: 12 });
    expect(result.expected[0]).toBeCloseTo(3.74, 12);
    expect(result.margin).toBeCloseTo(0.14 / 0.3, 12);
  });

  test('both readings at once: the one that would leave its limits holds the turn back', () => {
    const ground = { reading: 3.2, low: 3.6, high: 4.2, effects: [0.045] };
    const raised = { reading: 0.6, low: 0.7, high: 1.0, effects: [0.0225] };
    const result = found(solveAdjustment([sensorTurn], [ground, raised]));
    for (const [i, value] of [ground, raised].entries()) {
      expect(result.expected[i]!).toBeGreaterThanOrEqual(value.low);
      expect(result.expected[i]!).toBeLessThanOrEqual(value.high);
    }
    expect(result.turns[0]!.by).toBe(12);
    const high = { ...raised, reading: 0.79 };
    expect(found(solveAdjustment([sensorTurn], [ground, high])).turns[0]!.by).toBe(9);
  });

  test('touching a limit is inside, in exact fractions where floats would miss it', () => {
    const tenth = { num: 1n, den: 10n };
    const value = {
      reading: { num: 3n, den: 10n },
      low: { num: 6n, den: 10n },
      high: { num: 6n, den: 10n },
      effects: [tenth],
    };
    const result = found(solveAdjustment([{ low: 0, high: 5, smallest: 1 }], [value]));
    expect(result.turns[0]!.steps).toBe(3);
    expect(result.margin).toBe(0);
    // As floats, 0.3 + 3 * 0.1 is not 0.6.
    expect(
      solveAdjustment([{ low: 0, high: 5, smallest: 1 }], [{ reading: 0.3, low: 0.6, high: 0.6, effects: [0.1] }]).kind,
    ).toBe('impossible');
  });

  test('turns count from where it stands now; the range holds over all of them', () => {
    const value = { reading: 3.2, low: 3.6, high: 4.2, effects: [0.045] };
    const before = { ...sensorTurn, turned: 4 };
    expect(solveAdjustment([before], [value])).toEqual({ kind: 'impossible', conflict: [0], because: 'range' });
    expect(found(solveAdjustment([{ ...sensorTurn, turned: -4 }], [value])).turns[0]!.by).toBe(15.5);
    const back = found(solveAdjustment([{ ...sensorTurn, turned: 12 }], [{ ...value, reading: 4.3 }]));
    expect(back.turns[0]!.by).toBe(-9);
  });

  test('one limit: turn no further than half the travel asks for', () => {
    const result = found(solveAdjustment([{ low: 0, high: 10, smallest: 1 }], [{ reading: 1, low: 2, effects: [1] }]));
    expect(result.turns[0]!).toEqual({ by: 6, steps: 6, least: 1, most: 10 });
    expect(result.margin).toBe(1);
  });

  test('all inside already and nothing better: no turn', () => {
    const result = found(solveAdjustment([sensorTurn], [{ reading: 3.9, low: 3.6, high: 4.2, effects: [0.045] }]));
    expect(result.turns[0]!.by).toBe(0);
    expect(result.margin).toBeCloseTo(1, 12);
  });
});

describe('fractions of any length', () => {
  test('a denominator of 400 digits leaves no NaN', () => {
    const den = 3n ** 840n;
    const value = {
      reading: { num: den + 1n, den },
      low: { num: 5n, den: 2n },
      high: 4,
      effects: [{ num: den - 1n, den }],
    };
    const result = found(solveAdjustment([{ low: 0, high: 5, smallest: { num: 1n, den: 3n } }], [value]));
    expect(result.turns[0]!.steps).toBe(7);
    expect(result.turns[0]!.by).toBeCloseTo(7 / 3, 12);
    expect(result.expected[0]).toBeCloseTo(10 / 3, 12);
    expect(result.margin).toBeCloseTo(8 / 9, 12);
  });
});

describe('why none exists', () => {
  const value = { reading: 3.2, low: 3.6, high: 4.2, effects: [0.045] };
  test('no adjuster moves it', () => {
    const other = { reading: 1, low: 2, high: 3, effects: [0] };
    expect(solveAdjustment([sensorTurn], [value, other])).toEqual({
      kind: 'impossible',
      conflict: [1],
      because: 'unmoved',
    });
    expect(solveAdjustment([], [{ reading: 1, low: 2, effects: [] }])).toEqual({
      kind: 'impossible',
      conflict: [0],
      because: 'unmoved',
    });
  });
  test('the range is too short', () => {
    const far = { ...value, reading: 1 };
    expect(solveAdjustment([sensorTurn], [far])).toEqual({ kind: 'impossible', conflict: [0], because: 'range' });
  });
  test('the smallest turn jumps over the window', () => {
    const narrow = { reading: 3.2, low: 3.61, high: 3.62, effects: [0.045] };
    expect(solveAdjustment([{ ...sensorTurn, smallest: 2 }], [narrow])).toEqual({
      kind: 'impossible',
      conflict: [0],
      because: 'step',
    });
  });
  test('two values contradict each other; a third has nothing to do with it', () => {
    const opposite = { reading: 1.2, low: 1, high: 1.25, effects: [0.045] };
    const idle = { reading: 5, low: 4, high: 6, effects: [0] };
    expect(solveAdjustment([sensorTurn], [idle, value, opposite])).toEqual({
      kind: 'impossible',
      conflict: [1, 2],
      because: 'conflict',
    });
  });
  test('too many settings: not proved', () => {
    const fine = { low: 0, high: 1000, smallest: 1 };
    // A parity that no pruning sees: a sum of even numbers is never odd.
    const odd = { reading: 0, low: 1001, high: 1001, effects: [2, 2, 2, 2] };
    expect(solveAdjustment([fine, fine, fine, fine], [odd])).toEqual({ kind: 'not-proved' });
  });
});

describe('several adjusters', () => {
  test('two adjusters undo each other on one value and not on the other', () => {
    const left = { low: -10, high: 10, smallest: 1 };
    const values = [
      { reading: 0, low: 4.5, high: 5.5, effects: [1, 1] },
      { reading: 0, low: -1.5, high: -0.5, effects: [1, -1] },
    ];
    const result = found(solveAdjustment([left, left], values));
    expect(result.turns.map((turn) => turn.by)).toEqual([2, 3]);
    expect(result.margin).toBe(1);
  });

  test('nothing to adjust: only what already holds', () => {
    expect(found(solveAdjustment([], [{ reading: 1, low: 0, high: 3, effects: [] }])).turns).toEqual([]);
  });
});

describe('bad questions are refused', () => {
  const value = { reading: 1, low: 0, high: 2, effects: [1] };
  test.each([
    ['smallest turn', { low: 0, high: 1, smallest: 0 }],
    ['low <= high', { low: 1, high: 0, smallest: 1 }],
    ['multiple', { low: 0, high: 5, smallest: 2, turned: 1 }],
    ['within the range', { low: 0, high: 5, smallest: 1, turned: 6 }],
  ])('%s', (words, adjuster) => {
    expect(() => solveAdjustment([adjuster], [value])).toThrow(words);
  });
  test('effects that do not match, readings that are no numbers', () => {
    expect(() => solveAdjustment([], [value])).toThrow(RangeError);
    expect(() => solveAdjustment([sensorTurn], [{ ...value, reading: Number.NaN }])).toThrow(RangeError);
  });
});

const adjusterNumbers = fc.record({
  low: fc.integer({ min: -6, max: 0 }),
  high: fc.integer({ min: 0, max: 6 }),
  smallest: fc.integer({ min: 1, max: 3 }),
});

const questions = fc.integer({ min: 1, max: 3 }).chain((count) =>
  fc.tuple(
    fc.array(adjusterNumbers, { minLength: count, maxLength: count }),
    fc.array(
      fc.record({
        reading: fc.integer({ min: -20, max: 20 }),
        ends: fc.tuple(fc.integer({ min: -12, max: 12 }), fc.integer({ min: 0, max: 8 })),
        open: fc.constantFrom('none', 'none', 'low', 'high'),
        effects: fc.array(fc.integer({ min: -4, max: 4 }), { minLength: count, maxLength: count }),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  ),
);

interface Question {
  readonly adjusters: readonly { readonly low: number; readonly high: number; readonly smallest: number }[];
  readonly values: readonly {
    readonly reading: number;
    readonly low?: number;
    readonly high?: number;
    readonly effects: readonly number[];
  }[];
}

function ask([adjusters, raw]: typeof questions extends fc.Arbitrary<infer T> ? T : never): Question {
  const values = raw.map(({ reading, ends, open, effects }) => ({
    reading,
    effects,
    ...(open === 'low' ? {} : { low: ends[0] }),
    ...(open === 'high' ? {} : { high: ends[0] + ends[1] }),
  }));
  return { adjusters, values };
}

function allSettings(adjusters: Question['adjusters']): number[][] {
  return adjusters.reduce<number[][]>(
    (lists, { low, high, smallest }) => {
      const turns: number[] = [];
      for (let n = Math.ceil(low / smallest); n <= Math.floor(high / smallest); n += 1) turns.push(n * smallest);
      return lists.flatMap((list) => turns.map((turn) => [...list, turn]));
    },
    [[]],
  );
}

function after(value: Question['values'][number], turns: readonly number[]): number {
  return value.effects.reduce((sum, effect, i) => sum + effect * turns[i]!, value.reading);
}

function isInside(value: Question['values'][number], turns: readonly number[]): boolean {
  const moved = after(value, turns);
  return moved >= (value.low ?? -Infinity) && moved <= (value.high ?? Infinity);
}

function marginOf({ adjusters, values }: Question, turns: readonly number[]): number {
  return Math.min(
    1,
    ...values.map((value) => {
      const { low, high, effects } = value;
      const travel = adjusters.reduce(
        (sum, { low: a, high: b, smallest: s }, i) =>
          sum + Math.abs(effects[i]!) * s * (Math.floor(b / s) - Math.ceil(a / s)),
        0,
      );
      const scale = low !== undefined && high !== undefined && high > low ? (high - low) / 2 : travel / 2 || 1;
      const moved = after(value, turns);
      return Math.min(
        low === undefined ? Infinity : (moved - low) / scale,
        high === undefined ? Infinity : (high - moved) / scale,
      );
    }),
  );
}

describe('brute force', () => {
  test('a setting is found exactly where one exists, and it is the best', () => {
    fc.assert(
      fc.property(questions, (drawn) => {
        const question = ask(drawn);
        const { adjusters, values } = question;
        const good = allSettings(adjusters).filter((turns) => values.every((value) => isInside(value, turns)));
        const result = solveAdjustment(adjusters, values);
        expect(result.kind).toBe(good.length > 0 ? 'found' : 'impossible');
        note(bruteForce);
        if (result.kind !== 'found') return;
        const turns = result.turns.map((turn) => turn.by);
        expect(values.every((value) => isInside(value, turns))).toBe(true);
        expect(result.expected).toEqual(values.map((value) => after(value, turns)));
        expect(result.margin).toBeCloseTo(Math.max(...good.map((other) => marginOf(question, other))), 10);
        expect(marginOf(question, turns)).toBeCloseTo(result.margin, 10);
        // Of the best settings it is one that turns least.
        const steps = (other: readonly number[]) =>
          other.reduce((sum, turn, i) => sum + Math.abs(turn) / adjusters[i]!.smallest, 0);
        const equals = good.filter((other) => Math.abs(marginOf(question, other) - result.margin) < 1e-9);
        expect(steps(turns)).toBe(Math.min(...equals.map(steps)));
        adjusters.forEach((_, i) => {
          expect(result.turns[i]!.least).toBe(Math.min(...good.map((other) => other[i]!)) + 0);
          expect(result.turns[i]!.most).toBe(Math.max(...good.map((other) => other[i]!)) + 0);
        });
      }),
      { ...settings, numRuns: 1500 },
    );
  });

  test('a conflict cannot be met, and can be met without any one of its values', () => {
    fc.assert(
      fc.property(questions, (drawn) => {
        const { adjusters, values } = ask(drawn);
        const result = solveAdjustment(adjusters, values);
        fc.pre(result.kind === 'impossible');
        if (result.kind !== 'impossible') return;
        const settingsOf = (places: readonly number[]) =>
          allSettings(adjusters).some((turns) => places.every((place) => isInside(values[place]!, turns)));
        expect(settingsOf(result.conflict)).toBe(false);
        for (const place of result.conflict)
          expect(settingsOf(result.conflict.filter((other) => other !== place))).toBe(true);
        note({ ...bruteForce, of: 'solveAdjustment: conflict' });
      }),
      { ...settings, numRuns: 1500 },
    );
  });

  test('the reason holds: a far finer step helps where the step is blamed, a far longer range where the range is', () => {
    fc.assert(
      fc.property(questions, (drawn) => {
        const { adjusters, values } = ask(drawn);
        const result = solveAdjustment(adjusters, values);
        fc.pre(result.kind === 'impossible' && adjusters.length < 3);
        if (result.kind !== 'impossible') return;
        const part = result.conflict.map((place) => values[place]!);
        // 840 is divisible by all effects and their differences that occur with two adjusters here.
        const finer = adjusters.map(({ low, high, smallest }) => ({
          low: Math.ceil(low / smallest) * smallest,
          high: Math.floor(high / smallest) * smallest,
          smallest: { num: BigInt(smallest), den: 840n },
        }));
        const longer = adjusters.map(() => ({ low: -1000, high: 1000, smallest: { num: 1n, den: 840n } }));
        const isMet = (tried: readonly Adjuster[]) => hasSetting(buildProblem(tried, part));
        if (result.because === 'unmoved')
          expect(part.every((value) => value.effects.every((effect) => effect === 0))).toBe(true);
        if (adjusters.length === 1) {
          if (result.because === 'step') expect(isMet(finer)).toBe(true);
          else expect(isMet(finer)).toBe(false);
          if (result.because === 'range') expect(isMet(longer)).toBe(true);
          if (result.because === 'conflict') expect(isMet(longer)).toBe(false);
        }
        note({ ...bruteForce, of: 'solveAdjustment: reason' });
      }),
      { ...settings, numRuns: 1500 },
    );
  });
});

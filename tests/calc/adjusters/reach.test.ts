// What an adjuster can do over the whole band: worked cases, and a fine walk through the readings as the second method.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assessAdjusters, type Reach } from '../../../src/calc/adjusters/reach.js';
import { solveAdjustment } from '../../../src/calc/adjusters/solve.js';
import { settings } from '../interval/exact.js';
import { expectAbsolute } from '../outside/record.js';

function assess(...question: Parameters<typeof assessAdjusters>): readonly Reach[] {
  const result = assessAdjusters(...question);
  if (result.kind !== 'assessed') throw new Error('Expected an assessment');
  return result.values;
}

const turn = { low: -12, high: 12, smallest: 0.5 };
const onGround = { inside: { low: 0.25, high: 4.75 }, low: 3.6, high: 4.2, effects: [0.045] };

describe('worked cases', () => {
  test('a sensor body: 0.54 V each way brings in what lies that near', () => {
    const [reach] = assess([turn], [onGround]);
    expect(reach!.up).toBeCloseTo(0.54, 12);
    expect(reach!.down).toBeCloseTo(0.54, 12);
    expect(reach!.stepMove).toBeCloseTo(0.0225, 12);
    expect(reach!.jumps).toBe(false);
    expect(reach!.travelShare).toBeCloseTo(1.8, 12);
    // Outside are 3.35 V below and 0.55 V above; 0.54 V of each come in.
    expect(reach!.share).toBeCloseTo(1.08 / 3.9, 10);
    expect(reach!.unreached.map(([a, b]) => [a.toFixed(4), b.toFixed(4)])).toEqual([
      ['0.2500', '3.0600'],
      ['4.7400', '4.7500'],
    ]);
  });

  test('a range that suffices leaves nothing unreached', () => {
    const [reach] = assess([{ low: -100, high: 100, smallest: 0.5 }], [onGround]);
    expect(reach).toMatchObject({ share: 1, unreached: [] });
  });

  test('a step wider than the limits jumps over them and leaves gaps', () => {
    const [reach] = assess([{ low: -12, high: 12, smallest: 4 }], [{ ...onGround, low: 3.6, high: 3.7 }]);
    expect(reach!.jumps).toBe(true);
    expect(reach!.unreached.length).toBeGreaterThan(3);
  });

  test('a step larger than the range moves nothing', () => {
    const result = assessAdjusters([{ low: -1, high: 1, smallest: 2 }], [onGround]);
    expect(result).toMatchObject({ kind: 'assessed', immobile: [0] });
    if (result.kind === 'assessed') expect(result.values[0]).toMatchObject({ up: 0, down: 0, share: 0 });
  });

  test('a value that is not moved, one with one limit, one with none outside', () => {
    expect(assess([turn], [{ ...onGround, effects: [0] }])[0]).toMatchObject({
      share: 0,
      stepMove: undefined,
      jumps: false,
    });
    const oneLimit = assess([turn], [{ inside: { low: 0, high: 10 }, low: 1, effects: [0.045] }])[0]!;
    expect(oneLimit.travelShare).toBeUndefined();
    expect(oneLimit.share).toBeCloseTo(0.54, 10);
    expect(assess([turn], [{ inside: { low: 3.7, high: 4 }, low: 3.6, high: 4.2, effects: [0.045] }])[0]!.share).toBe(
      1,
    );
    expect(assess([], [{ ...onGround, effects: [] }])[0]!.share).toBe(0);
  });

  test('two adjusters reach further together', () => {
    const [reach] = assess([turn, { low: 0, high: 4, smallest: 1 }], [{ ...onGround, effects: [0.045, 0.1] }]);
    expect(reach!.up).toBeCloseTo(0.94, 12);
    expect(reach!.down).toBeCloseTo(0.54, 12);
  });

  test('limits, with a guard band taken off, that cross: nothing comes in', () => {
    expect(assess([turn], [{ ...onGround, low: 4, high: 3.9 }])[0]).toMatchObject({
      share: 0,
      unreached: [[0.25, 4.75]],
    });
    expect(() => assessAdjusters([turn], [{ ...onGround, inside: { low: 2, high: 1 } }])).toThrow(RangeError);
    const fine = { low: 0, high: 1000, smallest: 1 };
    expect(assessAdjusters([fine, fine], [{ ...onGround, effects: [1, 1] }])).toEqual({ kind: 'not-proved' });
  });
});

describe('a walk through the band', () => {
  test('the share is that of the outside readings for which a setting is found', () => {
    const question = fc.record({
      low: fc.integer({ min: -8, max: 0 }),
      high: fc.integer({ min: 0, max: 8 }),
      smallest: fc.integer({ min: 1, max: 4 }),
      effect: fc.integer({ min: -5, max: 5 }),
      from: fc.integer({ min: -10, max: 10 }),
      width: fc.integer({ min: 1, max: 12 }),
    });
    fc.assert(
      fc.property(question, ({ low, high, smallest, effect, from, width }) => {
        const adjuster = { low, high, smallest };
        const band = { inside: { low: -30, high: 30 }, low: from, high: from + width, effects: [effect] };
        const [reach] = assess([adjuster], [band]);
        let outside = 0;
        let broughtIn = 0;
        // Everything is whole: the middle between two whole readings speaks for all between them.
        for (let reading = -29.5; reading < 30; reading += 1) {
          if (reading > from && reading < from + width) continue;
          outside += 1;
          const solved = solveAdjustment([adjuster], [{ reading, low: from, high: from + width, effects: [effect] }]);
          if (solved.kind === 'found') broughtIn += 1;
        }
        expectAbsolute(reach!.share, broughtIn / outside, 1e-9, {
          of: 'assessAdjusters',
          against: 'walk through all readings',
        });
        const missed = reach!.unreached.reduce((sum, [a, b]) => sum + b - a, 0);
        expect(missed).toBeCloseTo(outside - broughtIn, 9);
      }),
      { ...settings, numRuns: 300 },
    );
  });
});

// The turn that a page works out, held against trying every turn that can be made, and against the effects themselves.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { workOut } from '../../site/client/walk/adjustment.js';
import { judge } from '../../site/client/walk/judge.js';
import { advance, beginning, freshReadings, type WalkState } from '../../site/client/walk/state.js';
import { add, compare, divide, multiply, type Rational, rational, subtract, zero } from '../../src/calc/rational.js';
import type { WalkAdjuster, WalkFile, WalkStep } from '../../src/emit/walk/walk-shape.js';
import { demoWalks } from './demo-walks.js';

const judgeSheet = () => [];

/** Every step of the demo that turns one thing by whole steps. */
const turns = demoWalks().flatMap((file) =>
  file.steps.flatMap((step) => {
    const [key, second] = step.adjust ?? [];
    const adjuster = second === undefined ? file.adjusters.find((one) => one.key === key) : undefined;
    return adjuster?.smallest ? [{ file, step, adjuster }] : [];
  }),
);

function read(file: WalkFile, adjuster: WalkAdjuster, share: number): WalkState {
  return Object.keys(adjuster.moves).reduce((state, key) => {
    const value = file.values.find((one) => one.key === key);
    const { from = 0, to = 10 } = value?.gauge ?? {};
    const text = (from + share * (to - from)).toFixed(3);
    const act = {
      kind: 'read',
      step: '',
      value: key,
      label: '',
      text,
      unit: value?.unit.symbol ?? '',
      verdict: 'recorded',
    };
    return advance(file, state, { act: act as never, judgeSheet });
  }, beginning(file));
}

function middle({ low, high }: { low: Rational; high: Rational }): Rational {
  return divide(add(low, high), rational(2));
}

/** Whether some whole number of smallest steps within the range brings all values inside. */
function canBeTurned(file: WalkFile, adjuster: WalkAdjuster, state: WalkState): boolean {
  const { smallest, range } = adjuster;
  if (!smallest) return false;
  const readings = freshReadings(file, state);
  for (let by = zero; !range.high || compare(by, range.high) <= 0; by = add(by, smallest)) if (fits(by)) return true;
  for (let by = zero; !range.low || compare(by, range.low) >= 0; by = subtract(by, smallest)) if (fits(by)) return true;
  return false;

  function fits(by: Rational): boolean {
    return Object.entries(adjuster.moves).every(([key, effect]) => {
      const value = file.values.find((one) => one.key === key);
      const reading = readings.get(key);
      if (!value?.acceptance || !reading) return true;
      const then = add(reading, multiply(middle(effect), by));
      const { low, high } = value.acceptance;
      return (!low || compare(low, then) <= 0) && (!high || compare(then, high) <= 0);
    });
  }
}

describe('the turn worked out', () => {
  it('is there for every adjuster of the demo that counts in steps', () => expect(turns.length).toBeGreaterThan(3));

  it('brings all readings inside, or no turn in steps within the range does', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...turns),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ({ file, step, adjuster }, share) => {
          const state = read(file, adjuster, share);
          const worked = workOut(file, state, step);
          if (worked.kind === 'unread') return;
          expect(worked.kind === 'found').toBe(canBeTurned(file, adjuster, state));
          if (worked.kind !== 'found') return;
          const [turn] = worked.turns;
          if (!turn || !adjuster.smallest) throw new Error('No turn');
          expect(divide(turn.by, adjuster.smallest).den).toBe(1n);
          for (const [key, expected] of worked.expected) {
            const value = file.values.find((one) => one.key === key);
            if (value) expect(judge({ ...value, inside: value.acceptance as never }, expected).verdict).toBe('pass');
          }
        },
      ),
      { numRuns: 300, seed: 5 },
    );
  });

  it('counts what was turned before against the range', () => {
    const { file, step, adjuster } = turns[0] as { file: WalkFile; step: WalkStep; adjuster: WalkAdjuster };
    if (!adjuster.range.high) throw new Error('The range has no end');
    const state = read(file, adjuster, 0.5);
    const used: WalkState = { ...state, turned: new Map([[adjuster.key, adjuster.range.high]]) };
    const worked = workOut(file, used, step);
    if (worked.kind === 'found') expect(compare(worked.turns[0]?.by ?? zero, zero)).toBeLessThanOrEqual(0);
    else expect(worked.kind).toBe('impossible');
  });

  it('is not worked out from a reading that a turn made stale', () => {
    const { file, step, adjuster } = turns[0] as { file: WalkFile; step: WalkStep; adjuster: WalkAdjuster };
    const state = read(file, adjuster, 0.1);
    const act = { kind: 'turn', step: '', adjuster: adjuster.key, label: '', text: '', total: '', unit: '', moves: [] };
    expect(workOut(file, advance(file, state, { act: act as never, judgeSheet }), step).kind).toBe('unread');
  });
});

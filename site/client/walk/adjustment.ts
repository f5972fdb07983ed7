// From the fresh readings to the turn that a step asks for: how far, which way, and what it will read then; or why no
// turn can do it. Effects count at their middle; the next reading decides.

import type { AdjustedValue } from '../../../src/calc/adjusters/problem.js';
import { solveAdjustment } from '../../../src/calc/adjusters/solve.js';
import {
  add,
  divide,
  fromNumber,
  multiply,
  type Rational,
  rational,
  subtract,
  zero,
} from '../../../src/calc/rational.js';
import type { WalkAdjuster, WalkFile, WalkStep, WalkValue } from '../../../src/emit/walk/walk-shape.js';
import { derive } from './judge.js';
import { freshReadings, type WalkState } from './state.js';

/** What to do with one adjuster; base units, signed, from where it stands now. */
export interface WorkedTurn {
  readonly adjuster: WalkAdjuster;
  readonly by: Rational;
}

export type WorkedAdjustment =
  /** Nothing that it moves was read. */
  | { readonly kind: 'unread' }
  | {
      readonly kind: 'found';
      readonly turns: readonly WorkedTurn[];
      /** What the values will read afterwards, base units. */
      readonly expected: ReadonlyMap<string, Rational>;
    }
  | {
      readonly kind: 'impossible';
      readonly because: 'unmoved' | 'range' | 'step' | 'conflict';
      readonly conflict: readonly WalkValue[];
    }
  | { readonly kind: 'not-proved' };

/** Works out the turns of all adjusters of a step together. */
export function workOut(file: WalkFile, state: WalkState, step: WalkStep): WorkedAdjustment {
  const adjusters = (step.adjust ?? []).flatMap((key) => file.adjusters.find((one) => one.key === key) ?? []);
  const readings = freshReadings(file, state);
  const moved = file.values.filter(
    (value) => value.acceptance && readings.has(value.key) && adjusters.some((one) => movesOf(file, one, value)),
  );
  if (moved.length === 0 || adjusters.length === 0) return { kind: 'unread' };
  const effects = moved.map((value) => adjusters.map((adjuster) => effectOn(file, readings, { value, adjuster })));
  const solved = solveAdjustment(
    adjusters.map((adjuster) => ({
      low: adjuster.range.low ?? zero,
      high: adjuster.range.high ?? zero,
      smallest: smallestOf(adjuster),
      turned: state.turned.get(adjuster.key) ?? zero,
    })),
    moved.map((value, i) => adjusted(value, readings.get(value.key) ?? zero, effects[i] ?? [])),
  );
  if (solved.kind === 'not-proved') return solved;
  if (solved.kind === 'impossible') {
    return { kind: 'impossible', because: solved.because, conflict: solved.conflict.flatMap((i) => moved[i] ?? []) };
  }
  const turns = adjusters.map((adjuster, i) => ({
    adjuster,
    by: multiply(smallestOf(adjuster), fromNumber(solved.turns[i]?.steps ?? 0)),
  }));
  const expected = moved.map((value, j): [string, Rational] => [
    value.key,
    turns.reduce((sum, { by }, i) => add(sum, multiply(effects[j]?.[i] ?? zero, by)), readings.get(value.key) ?? zero),
  ]);
  return { kind: 'found', turns, expected: new Map(expected) };
}

/** Without a smallest turn any turn can be made; a thousandth of the range stands for it. */
function smallestOf({ smallest, range }: WalkAdjuster): Rational {
  return smallest ?? divide(subtract(range.high ?? zero, range.low ?? zero), rational(1000));
}

function adjusted({ acceptance }: WalkValue, reading: Rational, effects: readonly Rational[]): AdjustedValue {
  return {
    reading,
    ...(acceptance?.low && { low: acceptance.low }),
    ...(acceptance?.high && { high: acceptance.high }),
    effects,
  };
}

/** Whether turning moves the value, itself or through what it is derived from. */
function movesOf(file: WalkFile, adjuster: WalkAdjuster, value: WalkValue): boolean {
  if (value.key in adjuster.moves) return true;
  return Object.values(value.derived?.inputs ?? {}).some((key) => {
    const input = file.values.find((one) => one.key === key);
    return input !== undefined && movesOf(file, adjuster, input);
  });
}

// what a derived value gains is the difference that one turn of its inputs makes: exact where it is linear in them
function effectOn(
  file: WalkFile,
  readings: ReadonlyMap<string, Rational>,
  { value, adjuster }: { readonly value: WalkValue; readonly adjuster: WalkAdjuster },
): Rational {
  const own = adjuster.moves[value.key];
  if (own) return divide(add(own.low, own.high), rational(2));
  const now = readings.get(value.key);
  if (!value.derived || !now) return zero;
  const turned = new Map(readings);
  for (const key of Object.values(value.derived.inputs)) {
    const input = file.values.find((one) => one.key === key);
    const before = readings.get(key);
    if (input && before) turned.set(key, add(before, effectOn(file, readings, { value: input, adjuster })));
  }
  const then = derive(value, turned);
  return then ? subtract(then, now) : zero;
}

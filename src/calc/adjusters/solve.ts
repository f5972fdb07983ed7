// From fresh readings to the turn that brings all values inside at once, or to the proof that none does and why.
// Words ("clockwise, seen from the left") are not made here.

import { isMetByReals } from './continuous.js';
import { type AdjustedValue, type Adjuster, buildProblem, exactly, type Problem, ratio, toNumber } from './problem.js';
import { BudgetSpent, hasSetting, largest, type Stretch, searchSettings, smallest } from './search.js';

/** What to do with one adjuster. */
export interface Turn {
  /** Signed, in the adjuster's unit, from where it stands now: positive is the direction its author calls positive. */
  readonly by: number;
  /** Whole counts of the smallest turn, signed, from now. */
  readonly steps: number;
  /** Least and greatest turn from now that occur in any setting that brings all values inside. */
  readonly least: number;
  readonly most: number;
}

/**
 * found: `turns` is the best setting, `margin` its worst margin: 1 in the middle of the limits, 0 at a limit (with one limit
 * alone, in units of half the value's whole travel by the adjusters, at most 1), `expected` the readings afterwards.
 * impossible: proved. `conflict` names the values, by place, that no setting brings inside together, while any of them
 * could be left out; `because` says why: no adjuster moves the value (unmoved), the range is too short (range), the smallest
 * turn jumps over the window (step), or they contradict each other at any turn (conflict).
 * not-proved: the search's budget was spent.
 */
export type Adjustment =
  | {
      readonly kind: 'found';
      readonly turns: readonly Turn[];
      readonly margin: number;
      readonly expected: readonly number[];
    }
  | {
      readonly kind: 'impossible';
      readonly conflict: readonly number[];
      readonly because: 'unmoved' | 'range' | 'step' | 'conflict';
    }
  | { readonly kind: 'not-proved' };

/**
 * The best setting is the one with the largest worst margin, then the one that turns least. Effects are taken as linear
 * and exact. Throws a RangeError for a question that makes no sense (see `buildProblem`).
 */
export function solveAdjustment(adjusters: readonly Adjuster[], values: readonly AdjustedValue[]): Adjustment {
  const problem = buildProblem(adjusters, values);
  try {
    const best = findBest(problem);
    return best === undefined ? explain(problem) : describe(adjusters, values, best);
  } catch (error) {
    if (error instanceof BudgetSpent) return { kind: 'not-proved' };
    throw error;
  }
}

interface Best {
  readonly problem: Problem;
  readonly counts: readonly bigint[];
  readonly margin: number;
  readonly spans: readonly { readonly from: bigint; readonly to: bigint }[];
}

function findBest(problem: Problem): Best | undefined {
  const scales = problem.rows.map((_, j) => marginScale(problem, j));
  const spans: { from: bigint; to: bigint }[] = [];
  let best: { counts: readonly bigint[]; margin: number; turned: bigint } | undefined;
  searchSettings(problem, (stretch) => {
    widen(spans, stretch);
    const counts = bestOf(problem, stretch, scales);
    const margin = worstMargin(problem, counts, scales);
    const turned = counts.reduce((sum, n, i) => sum + distance(n, problem.spans[i]!.now), 0n);
    if (best === undefined || margin > best.margin + 1e-12 || (margin > best.margin - 1e-12 && turned < best.turned)) {
      best = { counts, margin, turned };
    }
    return false;
  });
  return best && { problem, counts: best.counts, margin: best.margin, spans };
}

function distance(a: bigint, b: bigint): bigint {
  return a > b ? a - b : b - a;
}

function widen(spans: { from: bigint; to: bigint }[], stretch: Stretch): void {
  const ends = [...stretch.fixed.map((n) => ({ from: n, to: n })), { from: stretch.from, to: stretch.to }];
  ends.forEach((end, i) => {
    const span = spans[i];
    if (span === undefined) spans[i] = end;
    else spans[i] = { from: smallest(end.from, span.from), to: largest(end.to, span.to) };
  });
}

/** The width of the limits; with one limit, all that the adjusters together can move the value; never 0. */
function marginScale({ spans, rows }: Problem, j: number): bigint {
  const row = rows[j]!;
  if (row.low !== undefined && row.high !== undefined && row.high > row.low) return row.high - row.low;
  const travel = spans.reduce(
    (sum, span, i) => sum + distance(row.effects[i]! * span.most, row.effects[i]! * span.least),
    0n,
  );
  return travel > 0n ? travel : 2n;
}

/** Room to the nearest limit in halves of the scale, at most 1. */
function worstMargin({ rows }: Problem, counts: readonly bigint[], scales: readonly bigint[]): number {
  let worst = 1;
  rows.forEach((row, j) => {
    const sum = row.effects.reduce((total, effect, i) => total + effect * counts[i]!, 0n);
    if (row.low !== undefined) worst = Math.min(worst, ratio(2n * (sum - row.low), scales[j]!));
    if (row.high !== undefined) worst = Math.min(worst, ratio(2n * (row.high - sum), scales[j]!));
  });
  return worst;
}

/** The best setting of a stretch: the worst margin is concave along it, so its top is found by halving. */
function bestOf(problem: Problem, stretch: Stretch, scales: readonly bigint[]): readonly bigint[] {
  if (problem.spans.length === 0) return [];
  const at = (n: bigint) => worstMargin(problem, [...stretch.fixed, n], scales);
  const top = halve(stretch, (n) => at(n) >= at(n + 1n));
  // On a level top the setting nearest to the present one turns least.
  const level = at(top);
  const first = halve({ from: stretch.from, to: top }, (n) => at(n) >= level);
  const last = halve({ from: top, to: stretch.to }, (n) => n === stretch.to || at(n + 1n) < level);
  const now = problem.spans.at(-1)!.now;
  return [...stretch.fixed, largest(first, smallest(now, last))];
}

/** The least n from `from` to `to` for which `isThere` holds, which must stay true once it is; `to` where none does. */
function halve(range: { readonly from: bigint; readonly to: bigint }, isThere: (n: bigint) => boolean): bigint {
  let { from, to } = range;
  while (from < to) {
    const middle = from + (to - from) / 2n;
    if (isThere(middle)) to = middle;
    else from = middle + 1n;
  }
  return from;
}

function describe(adjusters: readonly Adjuster[], values: readonly AdjustedValue[], best: Best): Adjustment {
  const turns = adjusters.map((adjuster, i): Turn => {
    const { now } = best.problem.spans[i]!;
    const span = best.spans[i]!;
    const size = (n: bigint) => {
      const step = exactly(adjuster.smallest);
      return ratio((n - now) * step.num, step.den);
    };
    return {
      by: size(best.counts[i]!),
      steps: Number(best.counts[i]! - now),
      least: size(span.from),
      most: size(span.to),
    };
  });
  const expected = values.map((value) =>
    value.effects.reduce<number>((sum, effect, i) => sum + toNumber(effect) * turns[i]!.by, toNumber(value.reading)),
  );
  return { kind: 'found', turns, margin: best.margin, expected };
}

function explain(problem: Problem): Adjustment {
  const conflict = smallestConflict(problem);
  const part = { ...problem, rows: conflict.map((j) => problem.rows[j]!) };
  return { kind: 'impossible', conflict, because: reason(part) };
}

/** Leaves out one value after the other as long as what is left cannot be met either (a deletion filter). */
function smallestConflict(problem: Problem): readonly number[] {
  let places = problem.rows.map((_, j) => j);
  for (const j of problem.rows.keys()) {
    const without = places.filter((place) => place !== j);
    if (!hasSetting({ ...problem, rows: without.map((place) => problem.rows[place]!) })) places = without;
  }
  return places;
}

function reason(problem: Problem): 'unmoved' | 'range' | 'step' | 'conflict' {
  if (problem.rows.length === 1 && problem.rows[0]!.effects.every((effect) => effect === 0n)) return 'unmoved';
  if (isMetByReals(problem, true)) return 'step';
  return isMetByReals(problem, false) ? 'range' : 'conflict';
}

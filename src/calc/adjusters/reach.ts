// What an adjuster can do over all readings that are worth adjusting, before any is taken: used to judge a procedure.

import { type Adjuster, buildProblem, type Exact, type Problem, toNumber } from './problem.js';
import { BudgetSpent, searchSettings } from './search.js';

/** A value before it is read: where it may read at all, where it must come, what each adjuster moves it by per unit. */
export interface ValueBand {
  /** The band of readings worth adjusting; both ends must be given, for a share of it is worked out. */
  readonly inside: { readonly low: Exact; readonly high: Exact };
  readonly low?: Exact;
  readonly high?: Exact;
  readonly effects: readonly Exact[];
}

/** What the adjusters can do for one value; amounts in the value's unit. */
export interface Reach {
  /** Greatest move up and down (0 or more) from the setting at first. */
  readonly up: number;
  readonly down: number;
  /** Up and down together as a share of the width of the limits; undefined with one limit. */
  readonly travelShare: number | undefined;
  /** The least move other than none by the smallest turn of any one adjuster; undefined where none moves it. */
  readonly stepMove: number | undefined;
  /** Whether even the finest adjuster's smallest turn is wider than the limits, so that it jumps over them. */
  readonly jumps: boolean;
  /** Share of the readings outside the limits, within the band, that some setting brings in; 1 where none are outside. */
  readonly share: number;
  /** Stretches of the band that no setting brings in, ascending. Empty: the range suffices for every reading. */
  readonly unreached: readonly (readonly [number, number])[];
}

/** What adjusters can do for several values; `not-proved` where there are too many settings to go through. */
export type Assessment =
  | { readonly kind: 'assessed'; readonly values: readonly Reach[]; readonly immobile: readonly number[] }
  | { readonly kind: 'not-proved' };

const MOST_SETTINGS = 50_000;

/**
 * Goes through all settings. For each value alone: which readings can be brought in (others may forbid it for a pair of
 * readings; `solveAdjustment` decides there). `immobile` lists adjusters, by place, that have no setting but the present
 * one, their smallest turn being larger than their range. Throws RangeErrors as `buildProblem` does, and for an empty band.
 */
export function assessAdjusters(adjusters: readonly Adjuster[], values: readonly ValueBand[]): Assessment {
  const problem = buildProblem(
    adjusters,
    values.map((value) => ({ reading: 0, effects: value.effects })),
  );
  const immobile = problem.spans.flatMap((span, i) => (span.least === span.most ? [i] : []));
  try {
    const settings = listSettings(problem);
    return { kind: 'assessed', values: values.map((value) => assessValue(adjusters, value, settings)), immobile };
  } catch (error) {
    if (error instanceof BudgetSpent) return { kind: 'not-proved' };
    throw error;
  }
}

/** Every setting, as counts from the first one. */
function listSettings(problem: Problem): readonly (readonly number[])[] {
  const listed: number[][] = [];
  searchSettings({ spans: problem.spans, rows: [] }, ({ fixed, from, to }) => {
    const first = fixed.map((n, i) => Number(n - problem.spans[i]!.now));
    const now = problem.spans.at(-1)?.now ?? 0n;
    for (let n = from; n <= to; n += 1n) {
      listed.push(problem.spans.length === 0 ? [] : [...first, Number(n - now)]);
      if (listed.length > MOST_SETTINGS) throw new BudgetSpent();
    }
    return false;
  });
  return listed;
}

function assessValue(
  adjusters: readonly Adjuster[],
  value: ValueBand,
  settings: readonly (readonly number[])[],
): Reach {
  const steps = value.effects.map((effect, i) => toNumber(effect) * toNumber(adjusters[i]!.smallest));
  const moves = settings.map((counts) => counts.reduce((sum, n, i) => sum + n * steps[i]!, 0));
  const up = Math.max(0, ...moves);
  const down = Math.max(0, ...moves.map((move) => -move));
  const low = value.low === undefined ? -Infinity : toNumber(value.low);
  const high = value.high === undefined ? Infinity : toNumber(value.high);
  const sizes = steps.map(Math.abs).filter((size) => size > 0);
  const stepMove = sizes.length === 0 ? undefined : Math.min(...sizes);
  return {
    up,
    down,
    travelShare: Number.isFinite(high - low) && high > low ? (up + down) / (high - low) : undefined,
    stepMove,
    jumps: stepMove !== undefined && stepMove > high - low,
    ...coverage({ low, high }, { low: toNumber(value.inside.low), high: toNumber(value.inside.high) }, moves),
  };
}

interface Band {
  readonly low: number;
  readonly high: number;
}

/** A reading r comes in by a move m where low <= r + m <= high: the stretches [low - m, high - m], joined. */
function coverage(
  limits: Band,
  band: Band,
  moves: readonly number[],
): { readonly share: number; readonly unreached: readonly (readonly [number, number])[] } {
  if (!(band.low <= band.high))
    throw new RangeError(`Unexpected band ${band.low} to ${band.high}, expected low <= high`);
  const outside =
    Math.max(0, Math.min(limits.low, band.high) - band.low) + Math.max(0, band.high - Math.max(limits.high, band.low));
  if (limits.low > limits.high) return { share: 0, unreached: [[band.low, band.high]] };
  // Neighbouring stretches meet up to the rounding of their ends.
  const slack = 1e-12 * Math.max(Math.abs(band.low), Math.abs(band.high), ...moves.map(Math.abs));
  const sorted = [...new Set([0, ...moves])].sort((a, b) => b - a);
  const unreached: [number, number][] = [];
  let reached = band.low;
  for (const move of sorted) {
    const from = limits.low - move;
    if (from > band.high) break;
    if (from > reached + slack) unreached.push([reached, from]);
    reached = Math.max(reached, limits.high - move);
  }
  if (reached < band.high - slack) unreached.push([reached, band.high]);
  const missed = unreached.reduce((sum, [from, to]) => sum + to - from, 0);
  return { share: outside > 0 ? cleanShare(1 - missed / outside) : 1, unreached };
}

/** All or nothing is said so, not as a share that rounding left. */
function cleanShare(share: number): number {
  if (share < 1e-12) return 0;
  return share > 1 - 1e-12 ? 1 : share;
}

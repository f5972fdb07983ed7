// Walks through the settings of several adjusters and finds those that bring every value inside. Exact; counts its work
// and gives up, saying so, when the budget is spent.

import { ceilDivide, floorDivide, type Problem, type Row } from './problem.js';

/** How many partial settings a search may visit before it stops without an answer. */
export const SEARCH_BUDGET = 200_000;

/** Thrown inside a search, and caught by its caller, where the budget is spent. */
export class BudgetSpent extends Error {}

/** A stretch of settings: all but the last adjuster fixed, the last one anywhere from `from` to `to`. */
export interface Stretch {
  readonly fixed: readonly bigint[];
  readonly from: bigint;
  readonly to: bigint;
}

/**
 * Calls `visit` for each stretch of settings that satisfies all rows, until it returns true; tells whether it did. With no
 * adjuster there is one stretch of nothing if all rows hold. Throws BudgetSpent.
 */
export function searchSettings(
  problem: Problem,
  visit: (stretch: Stretch) => boolean,
  budget = SEARCH_BUDGET,
): boolean {
  const { spans, rows } = problem;
  const reach = remainingReach(problem);
  let visited = 0;
  const descend = (fixed: readonly bigint[], sums: readonly bigint[]): boolean => {
    visited += 1;
    if (visited > budget) throw new BudgetSpent();
    const depth = fixed.length;
    if (rows.some((row, j) => isOutOfReach(row, sums[j]!, reach[depth]![j]!))) return false;
    if (spans.length === 0) return visit({ fixed: [], from: 0n, to: 0n });
    const window = narrow(problem, { depth, sums, reach: reach[depth + 1]! });
    if (depth === spans.length - 1) return window.from <= window.to && visit({ fixed, ...window });
    for (let n = window.from; n <= window.to; n += 1n) {
      if (
        descend(
          [...fixed, n],
          rows.map((row, j) => sums[j]! + row.effects[depth]! * n),
        )
      )
        return true;
    }
    return false;
  };
  return descend(
    [],
    rows.map(() => 0n),
  );
}

interface Reach {
  readonly least: bigint;
  readonly most: bigint;
}

/** For each depth and row: the least and the most that the adjusters from that depth on can add. */
function remainingReach({ spans, rows }: Problem): readonly (readonly Reach[])[] {
  const reach: Reach[][] = [rows.map(() => ({ least: 0n, most: 0n }))];
  for (let i = spans.length - 1; i >= 0; i -= 1) {
    const after = reach[0]!;
    reach.unshift(
      rows.map((row, j) => {
        const ends = [row.effects[i]! * spans[i]!.least, row.effects[i]! * spans[i]!.most] as const;
        const [low, high] = ends[0] < ends[1] ? ends : [ends[1], ends[0]];
        return { least: after[j]!.least + low, most: after[j]!.most + high };
      }),
    );
  }
  return reach;
}

function isOutOfReach(row: Row, sum: bigint, reach: Reach): boolean {
  return (
    (row.low !== undefined && sum + reach.most < row.low) || (row.high !== undefined && sum + reach.least > row.high)
  );
}

/** The counts of one adjuster with which every row can still be met by those after it. */
function narrow(
  problem: Problem,
  at: { readonly depth: number; readonly sums: readonly bigint[]; readonly reach: readonly Reach[] },
) {
  const span = problem.spans[at.depth]!;
  let from = span.least;
  let to = span.most;
  problem.rows.forEach((row, j) => {
    const effect = row.effects[at.depth]!;
    if (effect === 0n) return;
    const lowest = row.low === undefined ? undefined : row.low - at.sums[j]! - at.reach[j]!.most;
    const highest = row.high === undefined ? undefined : row.high - at.sums[j]! - at.reach[j]!.least;
    const size = effect < 0n ? -effect : effect;
    const [least, most] = effect > 0n ? [lowest, highest] : [highest && -highest, lowest && -lowest];
    if (least !== undefined) from = largest(from, ceilDivide(least, size));
    if (most !== undefined) to = smallest(to, floorDivide(most, size));
  });
  return { from, to };
}

/** The larger of two whole numbers. */
export function largest(a: bigint, b: bigint): bigint {
  return a > b ? a : b;
}

/** The smaller of two whole numbers. */
export function smallest(a: bigint, b: bigint): bigint {
  return a < b ? a : b;
}

/** Whether any setting satisfies all rows. Throws BudgetSpent. */
export function hasSetting(problem: Problem): boolean {
  return searchSettings(problem, () => true);
}

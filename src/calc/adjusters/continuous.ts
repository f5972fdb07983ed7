// Whether linear limits can be met at all if turns were not stepped: Fourier's and Motzkin's elimination in whole numbers,
// so that "no" is a proof. For a handful of unknowns.

import { greatestCommon, type Problem } from './problem.js';
import { BudgetSpent } from './search.js';

/** sum of factors[i] * x[i] <= bound. */
interface Inequality {
  readonly factors: readonly bigint[];
  readonly bound: bigint;
}

const MOST_INEQUALITIES = 20_000;

/**
 * Whether real numbers x exist with all rows met and, where `ranged`, each within its span. Throws BudgetSpent where
 * elimination grows beyond 20,000 inequalities.
 */
export function isMetByReals(problem: Problem, ranged: boolean): boolean {
  let rows = toInequalities(problem, ranged);
  for (let k = 0; k < problem.spans.length; k += 1) rows = eliminate(rows, k);
  return rows.every((row) => row.bound >= 0n);
}

function toInequalities({ spans, rows }: Problem, ranged: boolean): Inequality[] {
  const made: Inequality[] = [];
  for (const row of rows) {
    if (row.high !== undefined) made.push({ factors: row.effects, bound: row.high });
    if (row.low !== undefined) made.push({ factors: row.effects.map((f) => -f), bound: -row.low });
  }
  if (!ranged) return made;
  spans.forEach((span, i) => {
    const unit = (sign: bigint) => spans.map((_, k) => (k === i ? sign : 0n));
    made.push({ factors: unit(1n), bound: span.most }, { factors: unit(-1n), bound: -span.least });
  });
  return made;
}

/** Every pair of an upper and a lower bound on x[k] gives an inequality without it; the rest stay. */
function eliminate(rows: readonly Inequality[], k: number): Inequality[] {
  const upper = rows.filter((row) => row.factors[k]! > 0n);
  const lower = rows.filter((row) => row.factors[k]! < 0n);
  if (upper.length * lower.length + rows.length > MOST_INEQUALITIES) throw new BudgetSpent();
  const kept = new Map<string, Inequality>();
  const keep = (row: Inequality) => {
    const reduced = reduce(row);
    const key = reduced.factors.join();
    const other = kept.get(key);
    if (other === undefined || reduced.bound < other.bound) kept.set(key, reduced);
  };
  for (const row of rows) if (row.factors[k] === 0n) keep(row);
  for (const up of upper) {
    for (const down of lower) {
      const a = -down.factors[k]!;
      const b = up.factors[k]!;
      keep({ factors: up.factors.map((f, i) => a * f + b * down.factors[i]!), bound: a * up.bound + b * down.bound });
    }
  }
  return [...kept.values()];
}

/** Divides by what all factors share; a bound that is not shared stays exact by leaving the row as it is. */
function reduce(row: Inequality): Inequality {
  const common = row.factors.reduce(greatestCommon, row.bound);
  return common > 1n ? { factors: row.factors.map((f) => f / common), bound: row.bound / common } : row;
}

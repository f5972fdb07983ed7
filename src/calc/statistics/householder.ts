// Solves an overdetermined linear system in the sense of least squares by Householder's QR (Golub, Van Loan, Matrix
// Computations, 4th ed., 5.2-5.3), columns scaled by powers of two, in numbers of 32 digits. No statistics here.

import { powerOfTwo } from '../interval/rounding.js';
import {
  type Doubled,
  dotDoubled,
  doubled,
  minus,
  negate,
  ONE,
  over,
  plus,
  root,
  single,
  times,
  ZERO,
} from './doubled.js';

/** The solution, the upper triangle and what is left over. */
export interface Solution {
  readonly coefficients: readonly Doubled[];
  /** (A'A)^-1, row by row: covariance of the coefficients but for the factor s^2. */
  readonly inverseNormal: readonly (readonly Doubled[])[];
  /** y - A x, row by row. */
  readonly residuals: readonly Doubled[];
}

/**
 * Solves A x = y for columns of A of one length that is at least their count. Undefined where a column depends on those
 * before it to within 1e-24 of its size, so that no single solution exists.
 */
export function solveLeastSquares(
  columns: readonly (readonly Doubled[])[],
  y: readonly Doubled[],
): Solution | undefined {
  const scales = columns.map(columnScale);
  const work = columns.map((column, j) => column.map((value) => times(value, doubled(1 / scales[j]!))));
  const right = [...y];
  const lengths = work.map((column) => single(dotDoubled(column, column)));
  for (let k = 0; k < work.length; k += 1) {
    const left = reflect(work, right, k);
    if (!(left > lengths[k]! * 1e-48)) return undefined;
  }
  const coefficients = substitute(work, right.slice(0, work.length)).map((c, j) => over(c, doubled(scales[j]!)));
  return { coefficients, inverseNormal: invert(work, scales), residuals: residuals(columns, y, coefficients) };
}

/** The power of two next to the column's largest entry: dividing by it is exact. */
function columnScale(column: readonly Doubled[]): number {
  const largest = column.reduce((most, value) => Math.max(most, Math.abs(value.high)), 0);
  return largest === 0 ? 1 : powerOfTwo(Math.round(Math.log2(largest)));
}

/** Turns column k below the diagonal to zero, in all later columns and the right side too; gives its squared length. */
function reflect(work: Doubled[][], right: Doubled[], k: number): number {
  const column = work[k]!;
  const tail = column.slice(k);
  const square = dotDoubled(tail, tail);
  if (!(square.high > 0)) return 0;
  const size = root(square);
  const pivot = tail[0]!;
  // Away from the pivot's sign, so that nothing cancels.
  const diagonal = pivot.high > 0 ? negate(size) : size;
  const mirror = [minus(pivot, diagonal), ...tail.slice(1)];
  const half = minus(square, times(pivot, diagonal));
  for (const target of [...work.slice(k + 1), right]) {
    const factor = over(dotDoubled(mirror, target.slice(k)), half);
    for (let i = 0; i < mirror.length; i += 1) target[k + i] = minus(target[k + i]!, times(factor, mirror[i]!));
  }
  column[k] = diagonal;
  return single(square);
}

/** Solves R x = right by substitution from below; column j of R stands in work[j][0..j]. */
function substitute(work: readonly (readonly Doubled[])[], right: readonly Doubled[]): Doubled[] {
  const x = [...right];
  for (let k = work.length - 1; k >= 0; k -= 1) {
    x[k] = over(x[k]!, work[k]![k]!);
    for (let i = 0; i < k; i += 1) x[i] = minus(x[i]!, times(work[k]![i]!, x[k]!));
  }
  return x;
}

/** (R'R)^-1 = R^-1 R^-T, scaled back. */
function invert(work: readonly (readonly Doubled[])[], scales: readonly number[]): Doubled[][] {
  const inverse = work.map((_, k) =>
    substitute(
      work,
      work.map((__, i) => (i === k ? ONE : ZERO)),
    ),
  );
  return work.map((_, i) =>
    work.map((__, j) => {
      const sum = inverse.reduce((total, column) => plus(total, times(column[i]!, column[j]!)), ZERO);
      return over(sum, doubled(scales[i]! * scales[j]!));
    }),
  );
}

function residuals(
  columns: readonly (readonly Doubled[])[],
  y: readonly Doubled[],
  coefficients: readonly Doubled[],
): Doubled[] {
  return y.map((value, i) =>
    columns.reduce((rest, column, j) => minus(rest, times(column[i]!, coefficients[j]!)), value),
  );
}

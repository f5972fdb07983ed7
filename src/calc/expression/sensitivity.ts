// How much each ranged input moves a result, the range of the derivative over all inputs, and the uncertainty that they
// give it together.

import { root } from '../elementary.js';
import type { Enclosure, Rational } from '../rational.js';
import { absolute, add, larger, multiply, rational, subtract, zero } from '../rational.js';
import type { Expr } from './ast.js';
import type { Box } from './box.js';
import { boxOf, inputsIn } from './box.js';
import type { ValueScope } from './evaluate.js';
import { enclose, plain } from './evaluate.js';
import { FaultError } from './fault.js';
import { slopesOf } from './slopes.js';

/** One ranged input. Names are as written; a range written in the expression is called by its offset, as in `#5`. */
export interface Sensitivity {
  readonly name: string;
  readonly range: Enclosure;
  /** The change of the result for each base unit of the input; undefined where it is not bounded. */
  readonly slope: Enclosure | undefined;
}

/** The sensitivity of an expression to each of its ranged inputs, in base units. */
export function sensitivitiesOf(expr: Expr, scope: ValueScope): readonly Sensitivity[] {
  const box: Box = boxOf(expr, scope);
  const slopes = slopesOf(expr, box, scope);
  return [...box].map(([name, range]) => {
    const slope = slopes.get(name);
    return { name, range, slope: slope && plain(slope) };
  });
}

/**
 * The result at the middle of all inputs, and U = 2u with each input taken as rectangular over its range and independent of
 * the others: u^2 is the sum of (c a)^2 / 3, a being half the range and c the largest slope over it (JCGM 100, 4.3.7 and
 * 5.1.2). Undefined where a slope is not bounded, or the result has no value in the middle.
 */
export function estimateOf(
  expr: Expr,
  scope: ValueScope,
): { readonly value: Enclosure; readonly uncertainty: Rational } | undefined {
  const half = rational(1, 2);
  let squared = zero;
  const middles = new Map<string, Enclosure>();
  for (const { name, range, slope } of sensitivitiesOf(expr, scope)) {
    if (!slope) return undefined;
    const middle = multiply(add(range.low, range.high), half);
    middles.set(name, { low: middle, high: middle });
    const share = multiply(larger(absolute(slope.low), absolute(slope.high)), subtract(range.high, range.low));
    squared = add(squared, multiply(multiply(share, share), rational(1, 12)));
  }
  try {
    return {
      value: plain(enclose(expr, inputsIn(middles, scope))),
      uncertainty: multiply(rational(2), root(squared).high),
    };
  } catch (error) {
    if (error instanceof FaultError) return undefined;
    throw error;
  }
}

// How much each ranged input moves a result: the range of the derivative over all inputs.

import type { Enclosure } from '../rational.js';
import type { Expr } from './ast.js';
import type { Box } from './box.js';
import { boxOf } from './box.js';
import type { ValueScope } from './evaluate.js';
import { plain } from './evaluate.js';
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

// The sharp range of an expression over ranged inputs.
import type { Enclosure } from '../enclosure.js';
import type { Expr, Parsed } from './ast.js';
import type { ValueScope } from './evaluate.js';

/** `outer` holds every value that the expression can take; every value in `attained` is taken by some inputs. */
export interface SharpRange {
  readonly outer: Enclosure;
  readonly attained: Enclosure;
  /** Both are the same, or differ by less than one part in 10^9; false where the budget ended before. */
  readonly proved: boolean;
}

/** All values of an expression while each name runs through its range; one name is the same value everywhere. */
export function rangeOf(_expr: Expr, _scope: ValueScope, _budget = 400): Parsed<SharpRange> {
  throw new Error('Not ready');
}

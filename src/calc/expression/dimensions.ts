// Dimension check of expressions and limits.
import type { Dimension } from '../unit.js';
import type { Expr, LimitsExpr, Parsed } from './ast.js';

/** What kind of value something is. */
export interface Shape {
  readonly dimension: Dimension;
  /** Of temperatures: a point on a scale, or the difference of two. */
  readonly temperature?: 'point' | 'difference';
  /** A worksheet column: it stands only inside `mean`, `sum`, `max` and the like. */
  readonly column?: boolean;
}
export type ShapeScope = (path: string) => Shape | undefined;

/** The dimension of an expression, or the first clash. */
export function dimensionOf(_expr: Expr, _scope: ShapeScope): Parsed<Shape> {
  throw new Error('Not ready');
}

/** The dimension of limits, or the first clash. `expected` is what the limits are for. */
export function dimensionOfLimits(_limits: LimitsExpr, _scope: ShapeScope, _expected?: Shape): Parsed<Shape> {
  throw new Error('Not ready');
}

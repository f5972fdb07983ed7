// Which names an expression reads.
import type { Expr, LimitsExpr } from './ast.js';

/** A name and where it stands. */
export interface NameUse {
  readonly path: string;
  readonly start: number;
  readonly end: number;
}

/** Every use of a name, in the order of the text. */
export function namesIn(_expr: Expr | LimitsExpr): readonly NameUse[] {
  throw new Error('Not ready');
}

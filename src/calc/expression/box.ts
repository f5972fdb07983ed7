// The box that the ranged inputs of an expression span, and how an expression is evaluated over a part of it.

import type { Enclosure } from '../rational.js';
import type { Expr } from './ast.js';
import type { Inputs, ValueScope } from './evaluate.js';

/** One input that is a range: a name, or a range written in the expression. The box holds one range for each. */
export type Box = ReadonlyMap<string, Enclosure>;

/** The key of a range that is written in the expression itself. */
export function keyOf(expr: Expr): string {
  return expr.kind === 'name' ? expr.path : `#${expr.start}`;
}

/** The inputs of a walk where each ranged one is narrowed to its range in the box. */
export function inputsIn(box: Box, scope: ValueScope): Inputs {
  return { scope: (path) => box.get(path) ?? scope(path), written: (expr) => box.get(keyOf(expr)) };
}

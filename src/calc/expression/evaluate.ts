// Expressions to exact values and sharp ranges.
import type { Enclosure } from '../enclosure.js';
import type { Expr, Parsed } from './ast.js';

/** What a name stands for: one value, or the rows of a worksheet column. */
export type ValueScope = (path: string) => Enclosure | readonly Enclosure[] | undefined;

/** The value of an expression in base units; a fault where it has none. Inputs that are ranges count as independent. */
export function evaluate(_expr: Expr, _scope: ValueScope): Parsed<Enclosure> {
  throw new Error('Not ready');
}

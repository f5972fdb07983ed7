// Which names an expression reads, and the parts that it is made of.

import type { Expr, LimitsExpr } from './ast.js';

/** A name and where it stands in the text that was parsed. */
export interface NameUse {
  readonly path: string;
  readonly start: number;
  readonly end: number;
}

/** The expressions directly within an expression or limits, in the order of the text. */
export function partsOf(expr: Expr | LimitsExpr): readonly Expr[] {
  switch (expr.kind) {
    case 'number':
    case 'name':
    case 'pi':
      return [];
    case 'negate':
    case 'in-unit':
    case 'single':
      return [expr.of];
    case 'binary':
      return [expr.left, expr.right];
    case 'call':
      return expr.args;
    case 'around': {
      const middle = 'middle' in expr ? expr.middle : expr.nominal;
      return expr.plus === expr.minus ? [middle, expr.plus] : [middle, expr.plus, expr.minus];
    }
    case 'range':
      return [expr.low, expr.high];
    case 'at-least':
      return [expr.low];
    case 'at-most':
      return [expr.high];
  }
}

/** Every use of a name, in the order of the text. */
export function namesIn(expr: Expr | LimitsExpr): readonly NameUse[] {
  if (expr.kind === 'name') return [{ path: expr.path, start: expr.start, end: expr.end }];
  return partsOf(expr).flatMap(namesIn);
}

/** The first use of each name: what is wrong with a name is one fault, however often it stands there. */
export function firstNamesIn(expr: Expr | LimitsExpr): readonly NameUse[] {
  const first = new Map<string, NameUse>();
  for (const use of namesIn(expr)) if (!first.has(use.path)) first.set(use.path, use);
  return [...first.values()];
}

// Puts expressions in the place of names.

import type { Expr } from './ast.js';

/** The expression with each name that is in `inner` replaced; places stay those of the texts that the parts came from. */
export function substitute(expr: Expr, inner: ReadonlyMap<string, Expr>): Expr {
  switch (expr.kind) {
    case 'name':
      return inner.get(expr.path) ?? expr;
    case 'negate':
      return { ...expr, of: substitute(expr.of, inner) };
    case 'binary':
      return { ...expr, left: substitute(expr.left, inner), right: substitute(expr.right, inner) };
    case 'call':
      return { ...expr, args: expr.args.map((part) => substitute(part, inner)) };
    default:
      // what else there is stands in calculations by hand alone, which name no values
      return expr;
  }
}

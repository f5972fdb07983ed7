// `on-ground` in an expression: one name written with a hyphen where such a name exists, otherwise a subtraction.

import type { Expr, LimitsExpr } from './ast.js';

/** Whether a name exists, and whether `a-b` is one name also where neither `a`, `b` nor `a_b` exists. */
export interface Joining {
  readonly isName: (path: string) => boolean;
  readonly unknownToo?: boolean;
}

/** The expression with every spaceless `a-b` made one name where `a_b` is a name, unless both `a` and `b` are names too. */
export function joinHyphens<E extends Expr | LimitsExpr>(expr: E, joining: Joining): E;
export function joinHyphens(expr: Expr | LimitsExpr, joining: Joining): Expr | LimitsExpr {
  const join = <E extends Expr>(part: E): E => joinHyphens(part, joining);
  switch (expr.kind) {
    case 'number':
    case 'name':
    case 'pi':
      return expr;
    case 'negate':
    case 'single':
    case 'in-unit':
      return { ...expr, of: join(expr.of) };
    case 'binary':
      return joinBinary({ ...expr, left: join(expr.left), right: join(expr.right) }, joining);
    case 'call':
      return { ...expr, args: expr.args.map(join) };
    case 'range':
      return { ...expr, low: join(expr.low), high: join(expr.high) };
    case 'around': {
      const minus = join(expr.minus);
      const plus = expr.plus === expr.minus ? minus : join(expr.plus);
      return 'middle' in expr
        ? { ...expr, middle: join(expr.middle), minus, plus }
        : { ...expr, nominal: join(expr.nominal), minus, plus };
    }
    case 'at-least':
      return { ...expr, low: join(expr.low) };
    case 'at-most':
      return { ...expr, high: join(expr.high) };
  }
}

function joinBinary(expr: Expr & { kind: 'binary' }, { isName, unknownToo }: Joining): Expr {
  const { left, right, start, end } = expr;
  const isTight = expr.op === '-' && left.kind === 'name' && right.kind === 'name' && right.start === left.end + 1;
  if (!isTight) return expr;
  const path = `${left.path}_${right.path}`;
  const [isLeft, isRight] = [isName(left.path), isName(right.path)];
  const joins = isName(path) ? !(isLeft && isRight) : unknownToo === true && !isLeft && !isRight;
  return joins ? { kind: 'name', path, start, end } : expr;
}

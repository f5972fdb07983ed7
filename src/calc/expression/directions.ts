// Whether an input moves an expression in one direction throughout, known from its form alone: a quotient of straight
// lines goes one way in each of its inputs. What the derivative over a box says stands in slopes.ts.

import type { Expr } from './ast.js';
import { keyOf } from './box.js';
import { partsOf } from './names.js';

/** Degrees of a quotient of polynomials in one input. */
interface Degrees {
  readonly above: number;
  readonly below: number;
}

/**
 * Whether an expression is (a x + b) / (c x + d) in the input `key` whatever the others are: then it rises or falls
 * throughout, and its extremes lie at the ends of that input.
 */
export function isOneWay(expr: Expr, key: string): boolean {
  const degrees = degreesOf(expr, key);
  return degrees !== undefined && degrees.above <= 1 && degrees.below <= 1;
}

function degreesOf(expr: Expr, key: string): Degrees | undefined {
  if (!uses(expr, key)) return { above: 0, below: 0 };
  switch (expr.kind) {
    case 'name':
      return { above: 1, below: 0 };
    case 'negate':
    case 'in-unit':
      return degreesOf(expr.of, key);
    case 'binary':
      return degreesOfBinary(expr, key);
    case 'call': {
      if (expr.name !== 'sum' && expr.name !== 'mean') return undefined;
      const all = expr.args.map((arg) => degreesOf(arg, key));
      return all.reduce((a, b) => a && b && added(a, b));
    }
    default:
      return undefined;
  }
}

function added(a: Degrees, b: Degrees): Degrees {
  return { above: Math.max(a.above + b.below, b.above + a.below), below: a.below + b.below };
}

function degreesOfBinary(expr: Extract<Expr, { kind: 'binary' }>, key: string): Degrees | undefined {
  const [left, right] = [degreesOf(expr.left, key), degreesOf(expr.right, key)];
  if (!left || !right || expr.op === '^') return undefined;
  if (expr.op === '+' || expr.op === '-') return added(left, right);
  const other = expr.op === '*' ? right : { above: right.below, below: right.above };
  return { above: left.above + other.above, below: left.below + other.below };
}

function uses(expr: Expr, key: string): boolean {
  if (keyOf(expr) === key && (expr.kind === 'name' || expr.kind === 'around' || expr.kind === 'range')) return true;
  return partsOf(expr).some((part) => uses(part, key));
}

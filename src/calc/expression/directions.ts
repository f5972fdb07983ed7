// In which direction each input moves an expression: known for the whole form (a quotient of straight lines goes one way
// in each of its inputs), or from the sign of the derivative over a box.

import type { Scaled } from '../enclosure.js';
import {
  absoluteRange,
  addRanges,
  cosineRange,
  encloses,
  exactly,
  hull,
  invertRange,
  multiplyRanges,
  negateRange,
  raiseRange,
  rootRange,
  scaled,
  sineRange,
  tangentRange,
  withPi,
} from '../enclosure.js';
import { compare, one, rational, sign, zero } from '../rational.js';
import type { Expr } from './ast.js';
import type { Box } from './box.js';
import { inputsIn, keyOf } from './box.js';
import type { Inputs, ValueScope } from './evaluate.js';
import { enclose } from './evaluate.js';
import { FaultError } from './fault.js';
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

/** How much the expression changes with each input of the box, as a range over it; undefined where that is not bounded. */
export function slopesOf(expr: Expr, box: Box, scope: ValueScope): ReadonlyMap<string, Scaled | undefined> {
  const inputs: Inputs = { ...inputsIn(box, scope), known: new Map() };
  return new Map([...box.keys()].map((key) => [key, trySlope(expr, key, inputs)]));
}

function trySlope(expr: Expr, key: string, inputs: Inputs): Scaled | undefined {
  try {
    return slopeOf(expr, key, inputs);
  } catch (error) {
    if (error instanceof FaultError) return undefined;
    throw error;
  }
}

const nothing = exactly(zero);

/** The range of the derivative by one input; undefined where it is not bounded. */
function slopeOf(expr: Expr, key: string, inputs: Inputs): Scaled | undefined {
  if (!uses(expr, key)) return nothing;
  switch (expr.kind) {
    case 'name':
    case 'around':
    case 'range':
      return exactly(one);
    case 'negate': {
      const of = slopeOf(expr.of, key, inputs);
      return of && negateRange(of);
    }
    case 'in-unit': {
      const of = slopeOf(expr.of, key, inputs);
      return of && multiplyRanges(of, exactly(expr.unit.factor, expr.unit.pi));
    }
    case 'binary':
      return slopeOfBinary(expr, key, inputs);
    case 'call':
      return slopeOfCall(expr, key, inputs);
    default:
      return nothing;
  }
}

function slopeOfBinary(expr: Extract<Expr, { kind: 'binary' }>, key: string, inputs: Inputs): Scaled | undefined {
  const [left, right] = [slopeOf(expr.left, key, inputs), slopeOf(expr.right, key, inputs)];
  if (!left || !right) return undefined;
  if (expr.op === '+') return addRanges(left, right);
  if (expr.op === '-') return addRanges(left, negateRange(right));
  const [a, b] = [enclose(expr.left, inputs), enclose(expr.right, inputs)];
  if (expr.op === '*') return addRanges(multiplyRanges(left, b), multiplyRanges(a, right));
  if (expr.op === '/') {
    if (encloses(b, zero)) return undefined;
    // (a' - (a / b) b') / b
    const quotient = multiplyRanges(a, invertRange(b));
    return multiplyRanges(addRanges(left, negateRange(multiplyRanges(quotient, right))), invertRange(b));
  }
  const power = expr.right.kind === 'number' && expr.right.value.den === 1n ? Number(expr.right.value.num) : undefined;
  if (power === undefined || power < 1 || power > 64) return undefined;
  return multiplyRanges(multiplyRanges(exactly(rational(power)), raiseRange(a, power - 1)), left);
}

function slopeOfCall(expr: Extract<Expr, { kind: 'call' }>, key: string, inputs: Inputs): Scaled | undefined {
  if (expr.name === 'count') return nothing;
  const slopes = expr.args.map((arg) => slopeOf(arg, key, inputs));
  if (slopes.includes(undefined)) return undefined;
  const known = slopes as Scaled[];
  const [inner] = known;
  const [first] = expr.args;
  if (!inner || !first) return undefined;
  if (expr.name === 'sum' || expr.name === 'mean') {
    const total = known.reduce(addRanges);
    return expr.name === 'sum' ? total : multiplyRanges(total, exactly(rational(1, known.length)));
  }
  if (expr.name === 'min' || expr.name === 'max') {
    const flat = known
      .map((slope) => withPi(slope, 0))
      .reduce<{ low: Scaled['low']; high: Scaled['high'] }>(hull, withPi(inner, 0));
    return scaled(flat.low, flat.high);
  }
  const outer = outerSlope(expr.name, enclose(first, inputs));
  return outer && multiplyRanges(outer, inner);
}

function outerSlope(name: string, a: Scaled): Scaled | undefined {
  const flat = withPi(a, 0);
  switch (name) {
    case 'abs':
      return sign(flat.low) >= 0
        ? exactly(one)
        : sign(flat.high) <= 0
          ? exactly(rational(-1))
          : scaled(rational(-1), one);
    case 'sqrt':
      return sign(flat.low) > 0 ? invertRange(multiplyRanges(exactly(rational(2)), rootRange(a))) : undefined;
    case 'sin':
      return multiplyRanges(exactly(rational(2), 1), cosineRange(a));
    case 'cos':
      return negateRange(multiplyRanges(exactly(rational(2), 1), sineRange(a)));
    case 'tan':
      return multiplyRanges(exactly(rational(2), 1), addRanges(exactly(one), raiseRange(tangentRange(a), 2)));
    case 'atan':
      return invertRange(
        multiplyRanges(exactly(rational(2), 1), addRanges(exactly(one), raiseRange(absoluteRange(a), 2))),
      );
    case 'asin':
      return compare(flat.high, one) < 0 && compare(flat.low, rational(-1)) > 0 ? bySine(a) : undefined;
    case 'acos': {
      const inside = compare(flat.high, one) < 0 && compare(flat.low, rational(-1)) > 0;
      return inside ? negateRange(bySine(a)) : undefined;
    }
    default:
      return undefined;
  }
}

// 1 / (2 pi sqrt (1 - a^2))
function bySine(a: Scaled): Scaled {
  const rest = addRanges(exactly(one), negateRange(raiseRange(withPi(a, 0), 2)));
  return invertRange(multiplyRanges(exactly(rational(2), 1), rootRange(rest)));
}

// Bounds of an expression over inputs of which little is known: an end that is missing is unbounded. What is said holds for
// every value, and need not be sharp; range.ts makes it sharp where every input has both ends.

import type { Rational } from '../rational.js';
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  negate,
  one,
  power,
  rational,
  sign,
  smaller,
  zero,
} from '../rational.js';
import type { Expr } from './ast.js';
import { evaluate, isSameValue } from './evaluate.js';
import { findFunction } from './functions.js';
import { namesIn } from './names.js';

/** Ends in base units, both reached or beyond reach; a missing one is unbounded. */
export interface Bounds {
  readonly low?: Rational;
  readonly high?: Rational;
}

/** What is known of the names in an expression. */
export interface KnownBounds {
  readonly names: ReadonlyMap<string, Bounds>;
  /** Those that stand for a whole column, each value within the bounds of its name. */
  readonly columns: ReadonlySet<string>;
  /** How many rows a column has. */
  readonly rows: Bounds;
}

const unbounded: Bounds = {};
const single: Bounds = { low: one, high: one };

/**
 * Within what an expression lies, whatever its names are within theirs. A name that is not known may be anything. Example:
 * `max(abs(x))` is at least 0 for any column x, and so is `max(x) - min(x)`.
 */
export function boundsOf(expr: Expr, known: KnownBounds): Bounds {
  switch (expr.kind) {
    case 'name':
      return known.names.get(expr.path) ?? unbounded;
    case 'negate':
      return turned(boundsOf(expr.of, known));
    case 'binary':
      return ofBinary(expr, known);
    case 'call':
      return ofCall(expr, known);
    default: {
      const value = evaluate(expr, () => undefined);
      return value.ok ? value.value : unbounded;
    }
  }
}

function ofBinary(expr: Extract<Expr, { kind: 'binary' }>, known: KnownBounds): Bounds {
  const { op } = expr;
  const [left, right] = [boundsOf(expr.left, known), boundsOf(expr.right, known)];
  if (op === '+') return sum(left, right);
  if (op === '-') return within(sum(left, turned(right)), differenceOfRows(expr.left, expr.right));
  if (op === '*') return isSameValue(expr.left, expr.right) ? raised(left, 2) : product(left, right);
  if (op === '/') return product(left, inverse(right));
  return toPower(left, right);
}

function ofCall({ name, args }: Extract<Expr, { kind: 'call' }>, known: KnownBounds): Bounds {
  const isColumn = (arg: Expr): boolean => namesIn(arg).some(({ path }) => known.columns.has(path));
  const gathers = findFunction(name)?.gathers === true;
  const counts = args.map((arg) => (isColumn(arg) ? known.rows : single));
  // what is gathered is worked out row by row, where a name is one cell
  const parts = args.map((arg) => boundsOf(arg, gathers && isColumn(arg) ? { ...known, columns: new Set() } : known));
  const [first = unbounded] = parts;
  switch (name) {
    case 'abs':
      return size(first);
    case 'sqrt':
      return { low: zero };
    case 'sin':
    case 'cos':
      return { low: rational(-1), high: one };
    case 'acos':
      return { low: zero, high: rational(1, 2) };
    case 'min':
      return { ...end('low', parts, smaller), ...anyEnd('high', parts, smaller) };
    case 'max':
      return { ...anyEnd('low', parts, larger), ...end('high', parts, larger) };
    case 'mean':
      return { ...end('low', parts, smaller), ...end('high', parts, larger) };
    case 'sum':
      return parts.map((part, i) => product(part, counts[i] ?? single)).reduce(sum);
    case 'count':
      return counts.reduce(sum);
    default:
      return unbounded;
  }
}

type Side = 'low' | 'high';
type Choose = (a: Rational, b: Rational) => Rational;

/** The end of all parts together: unbounded where one of them is. */
function end(side: Side, parts: readonly Bounds[], choose: Choose): Bounds {
  const ends = parts.flatMap((part) => part[side] ?? []);
  return ends.length === parts.length && ends.length > 0 ? { [side]: ends.reduce(choose) } : {};
}

/** The end that any one part is enough for. */
function anyEnd(side: Side, parts: readonly Bounds[], choose: Choose): Bounds {
  const ends = parts.flatMap((part) => part[side] ?? []);
  return ends.length > 0 ? { [side]: ends.reduce(choose) } : {};
}

const rowOrder: ReadonlyMap<string, number> = new Map([
  ['min', 0],
  ['mean', 1],
  ['max', 2],
]);

// over the same rows the least is not above the mean, and the mean not above the greatest
function differenceOfRows(left: Expr, right: Expr): Bounds {
  if (left.kind !== 'call' || right.kind !== 'call') return unbounded;
  const [a, b] = [rowOrder.get(left.name), rowOrder.get(right.name)];
  const same =
    left.args.length === right.args.length &&
    left.args.every((arg, i) => {
      const other = right.args[i];
      return other !== undefined && isSameValue(arg, other);
    });
  if (!same || a === undefined || b === undefined) return unbounded;
  return { ...(a >= b ? { low: zero } : {}), ...(a <= b ? { high: zero } : {}) };
}

function bounds(low: Rational | undefined, high: Rational | undefined): Bounds {
  return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

function within(a: Bounds, b: Bounds): Bounds {
  return { ...anyEnd('low', [a, b], larger), ...anyEnd('high', [a, b], smaller) };
}

function sum(a: Bounds, b: Bounds): Bounds {
  return bounds(a.low && b.low && add(a.low, b.low), a.high && b.high && add(a.high, b.high));
}

function turned({ low, high }: Bounds): Bounds {
  return bounds(high && negate(high), low && negate(low));
}

function size(a: Bounds): Bounds {
  if (a.low && sign(a.low) >= 0) return a;
  if (a.high && sign(a.high) <= 0) return turned(a);
  return bounds(zero, a.low && a.high && larger(negate(a.low), a.high));
}

/** An end of bounds: a number, or -1 and 1 for what lies beyond all numbers on either side. */
type Far = Rational | -1 | 1;

function product(a: Bounds, b: Bounds): Bounds {
  const [lefts, rights] = [farEnds(a), farEnds(b)];
  const ends = lefts.flatMap((left) => rights.map((right) => times(left, right)));
  const numbers = ends.flatMap((one) => (typeof one === 'number' ? [] : [one]));
  return bounds(
    ends.includes(-1) ? undefined : numbers.reduce(smaller, numbers[0] ?? zero),
    ends.includes(1) ? undefined : numbers.reduce(larger, numbers[0] ?? zero),
  );
}

function farEnds({ low, high }: Bounds): readonly Far[] {
  return [low ?? -1, high ?? 1];
}

// no input is ever infinite, so that nothing times it is nothing
function times(a: Far, b: Far): Far {
  if (typeof a !== 'number' && typeof b !== 'number') return multiply(a, b);
  const way = signOf(a) * signOf(b);
  return way === 0 ? zero : way < 0 ? -1 : 1;
}

function signOf(a: Far): number {
  return typeof a === 'number' ? a : sign(a);
}

/** One over bounds that do not reach across zero; zero itself divides nothing. */
function inverse(a: Bounds): Bounds {
  if (a.high && sign(a.high) <= 0) return turned(inverse(turned(a)));
  if (!a.low || sign(a.low) < 0) return unbounded;
  return bounds(
    a.high ? (sign(a.high) === 0 ? undefined : divide(one, a.high)) : zero,
    sign(a.low) > 0 ? divide(one, a.low) : undefined,
  );
}

const mostPower = 64;

function toPower(base: Bounds, { low, high }: Bounds): Bounds {
  if (!low || !high || compare(low, high) !== 0) return unbounded;
  // a broken power has a value for what is positive alone
  if (low.den !== 1n) return { low: zero };
  const exponent = Number(low.num);
  if (Math.abs(exponent) > mostPower) return exponent % 2 === 0 ? { low: zero } : unbounded;
  return exponent < 0 ? inverse(raised(base, -exponent)) : raised(base, exponent);
}

function raised(base: Bounds, exponent: number): Bounds {
  const { low, high } = exponent % 2 === 0 ? size(base) : base;
  return bounds(low && power(low, exponent), high && power(high, exponent));
}

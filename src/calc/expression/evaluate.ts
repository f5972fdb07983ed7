// Expressions to values that are sure: exact over fractions, rounded outward where a root or a sine needs it. Inputs that
// are ranges count as independent of each other and of themselves; range.ts makes the result sharp.

import { asDifference, noUnit, toBase } from '../conversion.js';
import type { Enclosure, Scaled } from '../enclosure.js';
import {
  absoluteRange,
  addRanges,
  arcCosineRange,
  arcSineRange,
  arcTangentRange,
  cosineRange,
  encloses,
  exactly,
  holdsQuarter,
  invertRange,
  isPoint,
  largerRange,
  multiplyRanges,
  negateRange,
  raiseRange,
  raiseToFraction,
  rootRange,
  scaled,
  sineRange,
  smallerRange,
  tangentRange,
  withPi,
} from '../enclosure.js';
import type { Rational } from '../rational.js';
import {
  compare,
  equals,
  fromNumber,
  isBeyond,
  magnitudeBits,
  one,
  rational,
  sign,
  subtract,
  toNumber,
  zero,
} from '../rational.js';
import type { Unit } from '../unit-type.js';
import type { Expr, Parsed } from './ast.js';
import { catchFault, fail } from './fault.js';
import { namesIn } from './names.js';

/** What a name stands for, in base units: one value, or the rows of a worksheet column. */
export type ValueScope = (path: string) => Enclosure | readonly Enclosure[] | undefined;

type RangeExpr = Extract<Expr, { kind: 'around' | 'range' }>;

/** Where a walk over an expression gets its inputs from. */
export interface Inputs {
  readonly scope: ValueScope;
  /** Which row of the columns is meant; undefined outside `mean`, `max` and the like. */
  readonly row?: number;
  /** A value in place of a range written in the expression. */
  readonly written?: (expr: RangeExpr) => Enclosure | undefined;
  /** What parts came to before, for a walk that needs them more than once. */
  readonly known?: Map<Expr, Scaled>;
}

/**
 * The value of an expression in base units, as a range that holds it for sure. Dimensions are not looked at: check them
 * first. Faults: an unknown name, a division by what can be zero, a root of what can be negative, a result beyond 1e300.
 */
export function evaluate(expr: Expr, scope: ValueScope): Parsed<Enclosure> {
  return catchFault(() => plain(enclose(expr, { scope })));
}

/** A range without its power of pi. */
export function plain(value: Scaled): Enclosure {
  const { low, high } = withPi(value, 0);
  return { low, high };
}

const mostBits = 997; // 1e300

/** The range of an expression, by the rules of interval arithmetic alone. Throws a fault. */
export function enclose(expr: Expr, inputs: Inputs): Scaled {
  const known = inputs.row === undefined ? inputs.known : undefined;
  const before = known?.get(expr);
  if (before) return before;
  const value = encloseNode(expr, inputs);
  if (isBeyond(value.low, mostBits) || isBeyond(value.high, mostBits)) {
    fail({
      start: expr.start,
      end: expr.end,
      message: 'The result is beyond 1e300',
      help: 'Check the units and powers.',
    });
  }
  known?.set(expr, value);
  return value;
}

function encloseNode(expr: Expr, inputs: Inputs): Scaled {
  switch (expr.kind) {
    case 'number':
      return inUnit(expr.value, expr.unit ?? noUnit);
    case 'pi':
      return exactly(one, 1);
    case 'name':
      return readName(expr, inputs);
    case 'negate':
      return negateRange(enclose(expr.of, inputs));
    case 'binary':
      return encloseBinary(expr, inputs);
    case 'call':
      return encloseCall(expr, inputs);
    case 'in-unit': {
      const { low, high } = withPi(enclose(expr.of, inputs), 0);
      const pi = expr.unit.pi;
      return scaled(toBase(low, expr.unit), toBase(high, expr.unit), pi);
    }
    case 'around':
    case 'range':
      return { pi: 0, ...(inputs.written?.(expr) ?? writtenRange(expr, inputs)) };
  }
}

/** A number in base units; exact but for a power of pi. */
export function inUnit(value: Rational, unit: Unit): Scaled {
  return exactly(toBase(value, unit), unit.pi);
}

/** The tolerance of `20 degC ± 2 degC` is a difference. */
export function asTolerance(expr: Expr): Expr {
  if (expr.kind === 'negate') return { ...expr, of: asTolerance(expr.of) };
  return expr.kind === 'number' && expr.unit ? { ...expr, unit: asDifference(expr.unit) } : expr;
}

/** The range that `(20 ± 0.25)` or `(0 to 1)` stands for. */
export function writtenRange(expr: RangeExpr, inputs: Inputs): Enclosure {
  const range = expr.kind === 'range' ? endsOf(expr, inputs) : spreadOf(expr, inputs);
  if (compare(range.low, range.high) > 0)
    fail({
      start: expr.start,
      end: expr.end,
      message: 'The range is empty: its low end lies above its high end',
      help: 'Exchange the ends.',
    });
  return range;
}

function endsOf(expr: Extract<Expr, { kind: 'range' }>, inputs: Inputs): Enclosure {
  return { low: plain(enclose(expr.low, inputs)).low, high: plain(enclose(expr.high, inputs)).high };
}

function spreadOf(expr: Extract<Expr, { kind: 'around' }>, inputs: Inputs): Enclosure {
  const middle = enclose(expr.middle, inputs);
  const part = (tolerance: Expr): Scaled => {
    const size = enclose(asTolerance(tolerance), inputs);
    return expr.percent ? multiplyRanges(size, absoluteRange(middle)) : size;
  };
  return {
    low: plain(addRanges(middle, negateRange(part(expr.minus)))).low,
    high: plain(addRanges(middle, part(expr.plus))).high,
  };
}

function readName(expr: Extract<Expr, { kind: 'name' }>, inputs: Inputs): Scaled {
  const found = inputs.scope(expr.path);
  const place = { start: expr.start, end: expr.end };
  if (found === undefined) return fail({ ...place, message: `\`${expr.path}\` has no value here` });
  if (!Array.isArray(found)) return { pi: 0, ...(found as Enclosure) };
  const cell = inputs.row === undefined ? undefined : (found as readonly Enclosure[])[inputs.row];
  if (cell) return { pi: 0, ...cell };
  const message =
    inputs.row === undefined
      ? `\`${expr.path}\` is a column and has many values`
      : `\`${expr.path}\` has fewer rows than the columns beside it`;
  return fail({ ...place, message, help: 'Put it in `mean`, `sum`, `min`, `max`, `count` or `slope`.' });
}

function encloseBinary(expr: Extract<Expr, { kind: 'binary' }>, inputs: Inputs): Scaled {
  const left = enclose(expr.left, inputs);
  // `x * x` is never negative, `x - x` is nothing, whatever x is
  if (!isPoint(left) && expr.op !== '+' && expr.op !== '^' && isSameValue(expr.left, expr.right)) {
    if (expr.op === '*') return raiseRange(left, 2);
    if (expr.op === '/') refuseZero(expr.right, left);
    return exactly(expr.op === '-' ? zero : one);
  }
  const right = enclose(expr.right, inputs);
  switch (expr.op) {
    case '+':
      return addRanges(left, right);
    case '-':
      return addRanges(left, negateRange(right));
    case '*':
      return multiplyRanges(left, right);
    case '/':
      refuseZero(expr.right, right);
      return multiplyRanges(left, invertRange(right));
    case '^':
      return raiseTo(expr, left, right);
  }
}

/** Whether two parts are one value. Two ranges written in the text are two inputs, even where they read the same. */
export function isSameValue(a: Expr, b: Expr): boolean {
  if (a.kind === 'number') return b.kind === 'number' && a.unit === b.unit && equals(a.value, b.value);
  if (a.kind === 'name') return b.kind === 'name' && a.path === b.path;
  if (a.kind === 'pi') return b.kind === 'pi';
  if (a.kind === 'negate') return b.kind === 'negate' && isSameValue(a.of, b.of);
  if (a.kind === 'binary')
    return b.kind === 'binary' && a.op === b.op && isSameValue(a.left, b.left) && isSameValue(a.right, b.right);
  if (a.kind !== 'call') return false;
  return (
    b.kind === 'call' &&
    a.name === b.name &&
    a.args.length === b.args.length &&
    a.args.every((arg, i) => isSameArgument(arg, b.args[i]))
  );
}

function isSameArgument(a: Expr, b: Expr | undefined): boolean {
  return b !== undefined && isSameValue(a, b);
}

function refuseZero(expr: Expr, value: Enclosure): void {
  if (!encloses(value, zero)) return;
  const place = { start: expr.start, end: expr.end };
  if (isPoint(value)) fail({ ...place, message: 'Division by zero' });
  fail({
    ...place,
    message: 'Division by a range that holds zero',
    help: 'Keep zero out of the range of what divides.',
  });
}

function raiseTo(expr: Extract<Expr, { kind: 'binary' }>, base: Scaled, power: Scaled): Scaled {
  const exponent = withPi(power, 0);
  const size = Math.max(Math.abs(toNumber(exponent.low)), Math.abs(toNumber(exponent.high)));
  const bits = [base.low, base.high].map(magnitudeBits).filter(Number.isFinite).map(Math.abs);
  if (size > 10_000 || size * Math.max(0, ...bits.map((one) => one - 1)) > 4 * mostBits) {
    fail({
      start: expr.start,
      end: expr.end,
      message: 'The power is beyond 10000 or its result beyond 1e300',
      help: 'Check the power.',
    });
  }
  const fixed = isPoint(exponent) ? exponent.low : undefined;
  if (fixed?.den === 1n) {
    if (fixed.num <= 0n) refuseZero(expr.left, base);
    return raiseRange(base, Number(fixed.num));
  }
  if (fixed?.den === 2n && fixed.num > 0n && sign(base.low) >= 0) return raiseRange(rootRange(base), Number(fixed.num));
  if (sign(base.low) <= 0) {
    const message = 'What is raised to a broken power can be zero or negative';
    fail({ start: expr.left.start, end: expr.left.end, message });
  }
  return raiseToFraction(base, exponent);
}

function encloseCall(expr: Extract<Expr, { kind: 'call' }>, inputs: Inputs): Scaled {
  const [first] = expr.args;
  if (!first) return fail({ start: expr.start, end: expr.end, message: `\`${expr.name}\` has no arguments` });
  switch (expr.name) {
    case 'abs':
      return absoluteRange(enclose(first, inputs));
    case 'sqrt':
      return rootRange(
        within(first, enclose(first, inputs), { low: zero, what: 'The square root of what can be negative' }),
      );
    case 'sin':
      return sineRange(enclose(first, inputs));
    case 'cos':
      return cosineRange(enclose(first, inputs));
    case 'tan': {
      const angle = enclose(first, inputs);
      if (holdsQuarter(angle))
        fail({
          start: first.start,
          end: first.end,
          message: 'The tangent has no value at 90 deg, which the angle can be',
        });
      return tangentRange(angle);
    }
    case 'asin':
      return arcSineRange(withinOne(first, inputs));
    case 'acos':
      return arcCosineRange(withinOne(first, inputs));
    case 'atan':
      return arcTangentRange(enclose(first, inputs));
    case 'slope':
      return encloseSlope(expr, inputs);
    default:
      return gather(expr, inputs);
  }
}

function within(expr: Expr, value: Scaled, bounds: { low: Rational; high?: Rational; what: string }): Scaled {
  const flat = withPi(value, 0);
  const outside =
    compare(flat.low, bounds.low) < 0 || (bounds.high !== undefined && compare(flat.high, bounds.high) > 0);
  return outside ? fail({ start: expr.start, end: expr.end, message: bounds.what }) : value;
}

function withinOne(expr: Expr, inputs: Inputs): Scaled {
  return within(expr, enclose(expr, inputs), {
    low: rational(-1),
    high: one,
    what: 'No angle has this sine or cosine: the value can be outside -1 to 1',
  });
}

/** The inputs for each value that an argument has: as they are, or one for each row of the columns in it. */
export function rowsOf(expr: Expr, inputs: Inputs): readonly Inputs[] {
  const columns = namesIn(expr).flatMap(({ path, start, end }) => {
    const found = inputs.scope(path);
    return Array.isArray(found) ? [{ rows: (found as readonly Enclosure[]).length, path, start, end }] : [];
  });
  const [first] = columns;
  if (!first || inputs.row !== undefined) return [inputs];
  const other = columns.find(({ rows }) => rows !== first.rows);
  if (other)
    fail({
      start: other.start,
      end: other.end,
      message: `\`${other.path}\` has ${other.rows} rows, \`${first.path}\` has ${first.rows}`,
    });
  return Array.from({ length: first.rows }, (_, row) => ({ ...inputs, row }));
}

function encloseRows(expr: Expr, inputs: Inputs): readonly Scaled[] {
  return rowsOf(expr, inputs).map((own) => enclose(expr, own));
}

function gather(expr: Extract<Expr, { kind: 'call' }>, inputs: Inputs): Scaled {
  const values = expr.args.flatMap((arg) => encloseRows(arg, inputs));
  const [first, ...others] = values;
  const number = exactly(fromNumber(values.length));
  if (expr.name === 'count') return number;
  if (!first)
    return expr.name === 'sum'
      ? exactly(zero)
      : fail({ start: expr.start, end: expr.end, message: `\`${expr.name}\` has no rows to work on` });
  if (expr.name === 'min') return others.reduce(smallerRange, first);
  if (expr.name === 'max') return others.reduce(largerRange, first);
  const sum = others.reduce(addRanges, first);
  return expr.name === 'sum' ? sum : multiplyRanges(sum, invertRange(number));
}

// least squares through points (x, y): the sum of (x - mean x)(y - mean y) over that of (x - mean x)^2
function encloseSlope(expr: Extract<Expr, { kind: 'call' }>, inputs: Inputs): Scaled {
  const [upward, along] = expr.args as readonly [Expr, Expr];
  const [ys, xs] = [encloseRows(upward, inputs), encloseRows(along, inputs)];
  const place = { start: expr.start, end: expr.end };
  if (ys.length !== xs.length || xs.length < 2)
    fail({
      ...place,
      message: `\`slope\` has ${ys.length} and ${xs.length} rows, expected two or more, as many of each`,
    });
  const mean = (values: readonly Scaled[]): Scaled =>
    multiplyRanges(values.reduce(addRanges), exactly(rational(1, values.length)));
  const [middleX, middleY] = [negateRange(mean(xs)), negateRange(mean(ys))];
  const offsets = xs.map((x) => addRanges(x, middleX));
  const spread = offsets.map((offset) => raiseRange(offset, 2)).reduce(addRanges);
  if (encloses(spread, zero))
    fail({
      start: along.start,
      end: along.end,
      message: 'All rows have the same value here, so that there is no slope',
    });
  const product = ys
    .map((y, row) => multiplyRanges(addRanges(y, middleY), offsets[row] ?? exactly(zero)))
    .reduce(addRanges);
  return multiplyRanges(product, invertRange(spread));
}

/** How wide a range is. */
export function widthOf(a: Enclosure): Rational {
  return subtract(a.high, a.low);
}

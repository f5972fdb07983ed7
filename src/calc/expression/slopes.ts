// How much an expression changes with each of its inputs: the range of each partial derivative over a box of inputs, all
// in one walk. A cell of a column is an input of its own.

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
import { compare, larger, one, rational, sign, smaller, zero } from '../rational.js';
import type { Expr } from './ast.js';
import type { Box } from './box.js';
import { inputsIn, keyOf } from './box.js';
import type { Inputs, ValueScope } from './evaluate.js';
import { enclose, rowsOf } from './evaluate.js';
import { FaultError } from './fault.js';

/** The key of one cell of a column. */
export function cellKey(path: string, row: number): string {
  return `${path}#${row}`;
}

/** By input; one that is missing has no effect, one that is undefined has an effect without bounds. */
type Slopes = ReadonlyMap<string, Scaled | undefined>;

/**
 * The change of the expression for one base unit of each input of the box, as a range over it; undefined where that is not
 * bounded. Cells are in the box by `cellKey`, their columns in the scope.
 */
export function slopesOf(expr: Expr, box: Box, scope: ValueScope): Slopes {
  const walk: Walk = { inputs: { ...inputsIn(box, scope), known: new Map() }, box };
  try {
    const slopes = slopesIn(expr, walk);
    return new Map([...box.keys()].map((key) => [key, of(slopes, key)]));
  } catch (error) {
    // columns of unequal length: the evaluation says so at its place
    if (error instanceof FaultError) return new Map([...box.keys()].map((key) => [key, undefined]));
    throw error;
  }
}

interface Walk {
  readonly inputs: Inputs;
  readonly box: Box;
}

const nothing = exactly(zero);
const none: Slopes = new Map();

function slopesIn(expr: Expr, walk: Walk): Slopes {
  switch (expr.kind) {
    case 'name':
      return slopeOfName(expr, walk);
    case 'around':
    case 'range':
      return walk.box.has(keyOf(expr)) ? new Map([[keyOf(expr), exactly(one)]]) : none;
    case 'negate':
      return scale(slopesIn(expr.of, walk), exactly(rational(-1)));
    case 'in-unit':
      return scale(slopesIn(expr.of, walk), exactly(expr.unit.factor, expr.unit.pi));
    case 'binary':
      return slopesOfBinary(expr, walk);
    case 'call':
      return slopesOfCall(expr, walk);
    default:
      return none;
  }
}

function slopeOfName({ path }: Extract<Expr, { kind: 'name' }>, { inputs, box }: Walk): Slopes {
  const isColumn = inputs.row !== undefined && Array.isArray(inputs.scope(path));
  const key = isColumn ? cellKey(path, inputs.row) : path;
  return box.has(key) ? new Map([[key, exactly(one)]]) : none;
}

function scale(slopes: Slopes, factor: Scaled | undefined): Slopes {
  return new Map([...slopes].map(([key, slope]) => [key, slope && factor && multiplyRanges(slope, factor)]));
}

function plus(a: Slopes, b: Slopes): Slopes {
  const sum = new Map(a);
  for (const [key, slope] of b) {
    const before = sum.get(key);
    sum.set(key, sum.has(key) ? before && slope && addRanges(before, slope) : slope);
  }
  return sum;
}

// undefined where a divisor or root is not settled in this box
function enclosed(expr: Expr, { inputs }: Walk): Scaled | undefined {
  try {
    return enclose(expr, inputs);
  } catch (error) {
    if (error instanceof FaultError) return undefined;
    throw error;
  }
}

function slopesOfBinary(expr: Extract<Expr, { kind: 'binary' }>, walk: Walk): Slopes {
  const [left, right] = [slopesIn(expr.left, walk), slopesIn(expr.right, walk)];
  if (left.size === 0 && right.size === 0) return none;
  if (expr.op === '+') return plus(left, right);
  if (expr.op === '-') return plus(left, scale(right, exactly(rational(-1))));
  const [a, b] = [enclosed(expr.left, walk), enclosed(expr.right, walk)];
  if (expr.op === '*') return plus(scale(left, b), scale(right, a));
  if (expr.op === '^') return plus(scale(left, powerSlope(expr, a)), scale(right, undefined));
  const over = b && !encloses(b, zero) ? invertRange(b) : undefined;
  // (a' - (a / b) b') / b
  const quotient = over && a && negateRange(multiplyRanges(a, over));
  return scale(plus(left, scale(right, quotient)), over);
}

function powerSlope(expr: Extract<Expr, { kind: 'binary' }>, a: Scaled | undefined): Scaled | undefined {
  const power = expr.right.kind === 'number' && expr.right.value.den === 1n ? Number(expr.right.value.num) : undefined;
  if (!a || power === undefined || power < 1 || power > 64) return undefined;
  return multiplyRanges(exactly(rational(power)), raiseRange(a, power - 1));
}

function slopesOfCall(expr: Extract<Expr, { kind: 'call' }>, walk: Walk): Slopes {
  const [first, second] = expr.args;
  if (!first || expr.name === 'count') return none;
  if (expr.name === 'slope') return second ? slopesOfLine(first, second, walk) : none;
  if (/^(?:sum|mean|min|max)$/.test(expr.name)) return slopesOfGathered(expr, walk);
  const inner = slopesIn(first, walk);
  if (inner.size === 0) return none;
  const at = enclosed(first, walk);
  return scale(inner, at && outerSlope(expr.name, at));
}

interface Cell {
  readonly value: Scaled | undefined;
  readonly slopes: Slopes;
}

function cellsOf(expr: Expr, walk: Walk): readonly Cell[] {
  return rowsOf(expr, walk.inputs).map((inputs) => {
    const own = { ...walk, inputs };
    return { value: enclosed(expr, own), slopes: slopesIn(expr, own) };
  });
}

function slopesOfGathered(expr: Extract<Expr, { kind: 'call' }>, walk: Walk): Slopes {
  const cells = expr.args.flatMap((arg) => cellsOf(arg, walk));
  if (expr.name === 'min' || expr.name === 'max') return slopesOfExtreme(cells, expr.name);
  const total = cells.map(({ slopes }) => slopes).reduce(plus, none);
  return expr.name === 'sum' ? total : scale(total, exactly(rational(1, Math.max(cells.length, 1))));
}

// whichever of the values can be the extreme one decides
function slopesOfExtreme(cells: readonly Cell[], name: 'min' | 'max'): Slopes {
  const ranges = cells.map(({ value }) => value && withPi(value, 0));
  const known = ranges.filter((range) => range !== undefined);
  const can = (range: Scaled | undefined): boolean => {
    if (!range || known.length < ranges.length) return true;
    if (name === 'max') return compare(range.high, known.map(({ low }) => low).reduce(larger)) >= 0;
    return compare(range.low, known.map(({ high }) => high).reduce(smaller)) <= 0;
  };
  const deciding = cells.filter((_, i) => can(ranges[i])).map(({ slopes }) => slopes);
  const keys = new Set(deciding.flatMap((slopes) => [...slopes.keys()]));
  return new Map([...keys].map((key) => [key, hullOf(deciding.map((slopes) => of(slopes, key)))]));
}

function of(slopes: Slopes, key: string): Scaled | undefined {
  return slopes.has(key) ? slopes.get(key) : nothing;
}

function hullOf(slopes: readonly (Scaled | undefined)[]): Scaled | undefined {
  const flat = slopes.map((slope) => slope && withPi(slope, 0));
  if (flat.includes(undefined)) return undefined;
  const { low, high } = (flat as Scaled[]).reduce<{ low: Scaled['low']; high: Scaled['high'] }>(
    hull,
    flat[0] as Scaled,
  );
  return scaled(low, high);
}

// of s = sum (x - mean x)(y - mean y) / sum (x - mean x)^2: (x - mean x) / sum for y, (y - mean y - 2 s (x - mean x)) / sum for x
function slopesOfLine(upward: Expr, along: Expr, walk: Walk): Slopes {
  const [ys, xs] = [offsetsOf(cellsOf(upward, walk)), offsetsOf(cellsOf(along, walk))];
  const spread = xs.map(({ value }) => value && raiseRange(value, 2)).reduce(sumOf, exactly(zero));
  const over = spread && !encloses(spread, zero) ? invertRange(spread) : undefined;
  const product = xs.map(({ value }, i) => timesOf(value, ys[i]?.value)).reduce(sumOf, exactly(zero));
  const twice = timesOf(timesOf(product, over), exactly(rational(2)));
  return xs
    .flatMap((x, i) => {
      const y = ys[i];
      const steep = twice && x.value && negateRange(multiplyRanges(twice, x.value));
      const byX = timesOf(y?.value && steep && addRanges(y.value, steep), over);
      return [scale(x.slopes, byX), scale(y?.slopes ?? none, timesOf(x.value, over))];
    })
    .reduce(plus, none);
}

function sumOf(a: Scaled | undefined, b: Scaled | undefined): Scaled | undefined {
  return a && b && addRanges(a, b);
}

function timesOf(a: Scaled | undefined, b: Scaled | undefined): Scaled | undefined {
  return a && b && multiplyRanges(a, b);
}

// offsets from the mean add up to nothing, so that the mean's own slope drops out
function offsetsOf(cells: readonly Cell[]): readonly Cell[] {
  const sum = cells.map(({ value }) => value).reduce(sumOf, exactly(zero));
  const mean = timesOf(sum, exactly(rational(-1, Math.max(cells.length, 1))));
  return cells.map(({ value, slopes }) => ({ value: sumOf(value, mean), slopes }));
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

// The dimension that an expression or limits have, or the place where two dimensions clash. Nothing is calculated here.

import type { Dimension } from '../dimension.js';
import {
  describeDimension,
  dimension,
  dimensionless,
  divideDimensions,
  isDimensionless,
  multiplyDimensions,
  raiseDimension,
  sameDimension,
} from '../dimension.js';
import type { Rational } from '../rational.js';
import { negate, rational, toNumber } from '../rational.js';
import { noUnit } from '../unit.js';
import type { Expr, LimitsExpr, Parsed } from './ast.js';
import { adviseDimension, adviseLimits } from './dimension-advice.js';
import { asTolerance } from './evaluate.js';
import { catchFault, fail } from './fault.js';
import { findFunction } from './functions.js';

/** What kind of value something is. */
export interface Shape {
  readonly dimension: Dimension;
  /** Of temperatures: a point on a scale, or the difference of two; missing where it may be either (a value in K). */
  readonly temperature?: 'point' | 'difference' | undefined;
  /** A worksheet column: it stands only inside `mean`, `sum`, `max` and the like. */
  readonly column?: boolean;
}

/** What kind of value a name is; undefined where there is no such name. */
export type ShapeScope = (path: string) => Shape | undefined;

const number: Shape = { dimension: dimensionless };
const angle = dimension({ angle: 1 });
const temperature = dimension({ temperature: 1 });

/** The dimension of an expression, or the first clash in it, in words and at its place. */
export function dimensionOf(expr: Expr, scope: ShapeScope): Parsed<Shape> {
  return catchFault(() => {
    const shape = shapeOf(expr, scope);
    if (shape.column) failColumn(expr);
    return shape;
  });
}

/** What limits are for; `isWorkedOut` where that comes of a formula, in which an angle may be lost or too many. */
export interface ExpectedShape extends Shape {
  readonly isWorkedOut?: boolean;
}

/**
 * The dimension of limits, or the first clash in them. `expected` is what the limits are for: where that is the
 * difference of two temperatures, numbers in degC and degF count as differences.
 */
export function dimensionOfLimits(limits: LimitsExpr, scope: ShapeScope, expected?: ExpectedShape): Parsed<Shape> {
  return catchFault(() => {
    const differ = expected?.temperature === 'difference' ? asTolerance : (expr: Expr): Expr => expr;
    const shape = shapeOfLimits(limits, scope, differ);
    if (shape.column) failColumn(limits);
    if (expected) requireSame(limits, shape, expected, () => adviseLimits(limits, shape, expected));
    return shape;
  });
}

function failColumn(at: { start: number; end: number }): never {
  return fail({
    start: at.start,
    end: at.end,
    message: 'A column has many values; one is expected',
    help: 'Put it in `mean`, `sum`, `min`, `max`, `count` or `slope`.',
  });
}

/** What a shape is called in a message. */
export function describeShape(shape: Shape): string {
  if (!sameDimension(shape.dimension, temperature)) return describeDimension(shape.dimension);
  return shape.temperature === 'difference' ? 'temperature difference' : 'temperature';
}

/** The same with its article: `a voltage`, `an area`. */
export function oneShape(shape: Shape): string {
  const words = describeShape(shape);
  return /^[aeiou]/.test(words) ? `an ${words}` : `a ${words}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function requireSame(
  at: { start: number; end: number },
  found: Shape,
  expected: Shape,
  advise: () => { help?: string },
): void {
  if (!sameDimension(found.dimension, expected.dimension) || clash(found, expected)) {
    fail({
      start: at.start,
      end: at.end,
      message: `Unexpected ${describeShape(found)}, expected ${describeShape(expected)}`,
      ...advise(),
    });
  }
}

function clash(a: Shape, b: Shape): boolean {
  return a.temperature !== undefined && b.temperature !== undefined && a.temperature !== b.temperature;
}

function shapeOfLimits(limits: LimitsExpr, scope: ShapeScope, differ: (expr: Expr) => Expr): Shape {
  switch (limits.kind) {
    case 'range':
      return sameShape(limits, shapeOf(differ(limits.low), scope), shapeOf(differ(limits.high), scope));
    case 'around':
      return shapeAround({ ...limits, middle: differ(limits.nominal) }, scope);
    case 'at-least':
      return shapeOf(differ(limits.low), scope);
    case 'at-most':
      return shapeOf(differ(limits.high), scope);
    case 'single':
      return shapeOf(differ(limits.of), scope);
  }
}

interface Around {
  readonly middle: Expr;
  readonly minus: Expr;
  readonly plus: Expr;
  readonly percent: boolean;
}

function shapeAround(of: Around, scope: ShapeScope): Shape {
  const middle = shapeOf(of.middle, scope);
  for (const part of of.minus === of.plus ? [of.minus] : [of.plus, of.minus]) {
    const tolerance = shapeOf(asTolerance(part), scope);
    if (of.percent) {
      if (middle.temperature === 'point')
        fail({
          start: part.start,
          end: part.end,
          message: 'A temperature has no percentage: its zero depends on the scale',
          help: 'Write the tolerance in degrees.',
        });
      continue;
    }
    if (!sameDimension(middle.dimension, tolerance.dimension)) {
      fail({
        start: part.start,
        end: part.end,
        message: `The tolerance is ${oneShape(tolerance)}, its nominal ${oneShape(middle)}`,
        help: 'Write both in units of one kind.',
      });
    }
    if (middle.temperature === 'point' && tolerance.temperature === 'point') {
      fail({
        start: part.start,
        end: part.end,
        message: 'The tolerance of a temperature is a point on a scale, expected a difference',
      });
    }
  }
  return middle;
}

function sameShape(at: { start: number; end: number }, a: Shape, b: Shape): Shape {
  if (!sameDimension(a.dimension, b.dimension)) {
    fail({
      start: at.start,
      end: at.end,
      message: `One end is ${oneShape(a)}, the other ${oneShape(b)}`,
      help: 'Write both ends in units of one kind.',
    });
  }
  if (clash(a, b))
    fail({
      start: at.start,
      end: at.end,
      message: `One end is ${oneShape(a)}, the other ${oneShape(b)}`,
    });
  return join(a, b);
}

function join(a: Shape, b: Shape): Shape {
  const kind = a.temperature ?? b.temperature;
  const column = a.column || b.column;
  return { dimension: a.dimension, ...(kind && { temperature: kind }), ...(column && { column }) };
}

function shapeOf(expr: Expr, scope: ShapeScope): Shape {
  switch (expr.kind) {
    case 'number': {
      const unit = expr.unit ?? noUnit;
      return unit.offset ? { dimension: unit.dimension, temperature: 'point' } : { dimension: unit.dimension };
    }
    case 'pi':
      return number;
    case 'name':
      return (
        scope(expr.path) ?? fail({ start: expr.start, end: expr.end, message: `\`${expr.path}\` is not known here` })
      );
    case 'negate':
      return refusePoint(expr.of, shapeOf(expr.of, scope), 'reversed in sign');
    case 'binary':
      return shapeOfBinary(expr, scope);
    case 'call':
      return shapeOfCall(expr, scope);
    case 'in-unit': {
      const of = shapeOf(expr.of, scope);
      if (!isDimensionless(of.dimension)) {
        fail({
          start: expr.start,
          end: expr.end,
          message: `What stands in parentheses is ${oneShape(of)} already, and \`${expr.unit.symbol}\` follows`,
          help: 'Leave one of the units out.',
        });
      }
      return expr.unit.offset
        ? { dimension: expr.unit.dimension, temperature: 'point' }
        : { dimension: expr.unit.dimension };
    }
    case 'around':
      return shapeAround(expr, scope);
    case 'range':
      return sameShape(expr, shapeOf(expr.low, scope), shapeOf(expr.high, scope));
  }
}

function refusePoint(expr: Expr, shape: Shape, what: string): Shape {
  if (shape.temperature !== 'point') return shape;
  return fail({
    start: expr.start,
    end: expr.end,
    message: `A temperature cannot be ${what}: its zero depends on the scale`,
    help: 'Temperatures are subtracted, compared and averaged; differences are written in K.',
  });
}

function shapeOfBinary(expr: Extract<Expr, { kind: 'binary' }>, scope: ShapeScope): Shape {
  const [left, right] = [shapeOf(expr.left, scope), shapeOf(expr.right, scope)];
  const column = left.column || right.column ? { column: true } : {};
  if (expr.op === '+' || expr.op === '-') return { ...shapeOfSum(expr, left, right), ...column };
  if (expr.op === '^') return { ...shapeOfPower(expr, left, right), ...column };
  const what = expr.op === '*' ? 'multiplied' : 'divided';
  refusePoint(expr.left, left, what);
  refusePoint(expr.right, right, what);
  const combine = expr.op === '*' ? multiplyDimensions : divideDimensions;
  const result = combine(left.dimension, right.dimension);
  return {
    dimension: result,
    ...(sameDimension(result, temperature) && { temperature: 'difference' as const }),
    ...column,
  };
}

function shapeOfSum(expr: Extract<Expr, { kind: 'binary' }>, left: Shape, right: Shape): Shape {
  const place = { start: expr.start, end: expr.end };
  if (!sameDimension(left.dimension, right.dimension)) {
    const [verb, joint] = expr.op === '+' ? ['added', 'and'] : ['subtracted', 'and'];
    fail({
      ...place,
      message: `${capital(oneShape(left))} ${joint} ${oneShape(right)} cannot be ${verb}`,
      ...(adviseDimension(left, right).help
        ? adviseDimension(left, right)
        : { help: 'Both sides need units of one kind.' }),
    });
  }
  const points = [left, right].filter((shape) => shape.temperature === 'point').length;
  if (points === 0) return join(left, right);
  if (points === 2 && expr.op === '-') return { dimension: left.dimension, temperature: 'difference' };
  const message =
    points === 2
      ? 'Two temperatures cannot be added'
      : `A temperature and a difference cannot be ${expr.op === '+' ? 'added' : 'subtracted'}`;
  return fail({
    ...place,
    message,
    help: 'Temperatures are subtracted from each other, compared and averaged; write the sum as one number, or limits with `±`.',
  });
}

function shapeOfPower(expr: Extract<Expr, { kind: 'binary' }>, left: Shape, right: Shape): Shape {
  if (!isDimensionless(right.dimension)) {
    fail({
      start: expr.right.start,
      end: expr.right.end,
      message: `A power is a number; this is ${oneShape(right)}`,
    });
  }
  refusePoint(expr.left, left, 'raised to a power');
  if (isDimensionless(left.dimension)) return number;
  const power = constantOf(expr.right);
  if (!power || (power.den !== 1n && power.den !== 2n)) {
    return fail({
      start: expr.right.start,
      end: expr.right.end,
      message: `${capital(oneShape(left))} is raised to a power that is not a whole number or a half`,
      help: 'Write the power as a number, as in `x^2`.',
    });
  }
  return { dimension: raiseDimension(left.dimension, toNumber(power)) };
}

function constantOf(expr: Expr): Rational | undefined {
  if (expr.kind === 'number') return expr.unit ? undefined : expr.value;
  if (expr.kind === 'negate') {
    const of = constantOf(expr.of);
    return of && negate(of);
  }
  if (expr.kind !== 'binary' || expr.op !== '/') return undefined;
  const [above, below] = [constantOf(expr.left), constantOf(expr.right)];
  return above && below && below.num !== 0n ? rational(above.num * below.den, above.den * below.num) : undefined;
}

function shapeOfCall(expr: Extract<Expr, { kind: 'call' }>, scope: ShapeScope): Shape {
  const shapes = expr.args.map((arg) => shapeOf(arg, scope));
  const [first, second] = shapes;
  const [firstArg, secondArg] = expr.args;
  if (!first || !firstArg)
    return fail({ start: expr.start, end: expr.end, message: `\`${expr.name}\` has no arguments` });
  if (findFunction(expr.name)?.gathers) {
    if (expr.name === 'count') return number;
    if (expr.name === 'slope' && second && secondArg) {
      refusePoint(firstArg, first, 'fitted by a line');
      return { dimension: divideDimensions(first.dimension, second.dimension) };
    }
    return gatheredShape(expr, shapes);
  }
  const column = first.column ? { column: true } : {};
  const wants =
    expr.name === 'abs' || expr.name === 'sqrt' ? undefined : /^[sct]/.test(expr.name) ? angle : dimensionless;
  if (wants && !sameDimension(first.dimension, wants)) {
    const help =
      wants === angle && isDimensionless(first.dimension)
        ? { help: 'Write the unit of the angle, as in `0.5 rad` or `30 deg`.' }
        : {};
    fail({
      start: firstArg.start,
      end: firstArg.end,
      message: `\`${expr.name}\` takes ${wants === angle ? 'an angle' : 'a number'}; this is ${oneShape(first)}`,
      ...help,
    });
  }
  refusePoint(firstArg, first, `the argument of \`${expr.name}\``);
  if (expr.name === 'abs') return first;
  if (expr.name === 'sqrt') return { dimension: raiseDimension(first.dimension, 0.5), ...column };
  return { dimension: wants === angle ? dimensionless : angle, ...column };
}

function gatheredShape(expr: Extract<Expr, { kind: 'call' }>, shapes: readonly Shape[]): Shape {
  let result = shapes[0] ?? number;
  for (const [i, shape] of shapes.entries()) {
    const arg = expr.args[i] ?? expr;
    if (!sameDimension(shape.dimension, result.dimension) || clash(shape, result)) {
      fail({
        start: arg.start,
        end: arg.end,
        message: `\`${expr.name}\` has ${oneShape(result)} before and ${oneShape(shape)} here`,
        help: 'All of its arguments need units of one kind.',
      });
    }
    if (expr.name === 'sum') refusePoint(arg, shape, 'summed');
    result = join(result, shape);
  }
  const { dimension: of, temperature: kind } = result;
  return { dimension: of, ...(kind && { temperature: kind }) };
}

// Written limits to exact limits for one rig: parameters put in, units and percentages settled, ends narrowed. What comes
// out has a low end that is not above its high end, or there is a fault at its place.

import type { Scaled } from './enclosure.js';
import { absoluteRange, addRanges, multiplyRanges, negateRange, withPi } from './enclosure.js';
import type { Expr, LimitsExpr, Parsed } from './expression/ast.js';
import { asTolerance, enclose } from './expression/evaluate.js';
import { catchFault, fail } from './expression/fault.js';
import { partsOf } from './expression/names.js';
import type { Limits } from './limits.js';
import { enclosureOf } from './limits.js';
import type { Enclosure, Rational } from './rational.js';
import {
  absolute,
  compare,
  decimalExponent,
  divide,
  larger,
  multiply,
  rational,
  sign,
  tenTo,
  zero,
} from './rational.js';
import { unitOfResult } from './result-unit.js';
import type { Unit } from './unit.js';
import { fromBase, isConvertible, isSameSize, noUnit } from './unit.js';

/** The limits of a parameter by its path; undefined where it has none. */
export type LimitScope = (path: string) => Limits | undefined;

export interface ResolveOptions {
  /** Numbers in degC and degF are differences: the limits of a value that is the difference of two temperatures. */
  readonly temperature?: 'point' | 'difference' | undefined;
}

/**
 * The limits that a text means for one rig. An end that is itself a range counts at its narrowing side: `0.72 * supply`
 * as a low end takes the highest supply. A single name takes over the parameter's limits with its nominal; a single
 * number is low, high and nominal at once. Dimensions are to be checked before.
 */
export function resolveLimits(limits: LimitsExpr, scope: LimitScope, options: ResolveOptions = {}): Parsed<Limits> {
  return catchFault(() => {
    const differ = options.temperature === 'difference' ? asTolerance : (expr: Expr): Expr => expr;
    const found = resolve(limits, { scope, differ });
    if (found.low && found.high && compare(found.low, found.high) > 0) failEmpty(limits);
    return found;
  });
}

function failEmpty(limits: LimitsExpr): never {
  const place = { start: limits.start, end: limits.end };
  if (limits.kind === 'range')
    return fail({
      ...place,
      message: 'The low end lies above the high end',
      help: 'Exchange the ends, or narrow the parameters in them.',
    });
  return fail({
    ...place,
    message: 'No value keeps these limits',
    help: 'Widen the tolerance, or narrow the parameters in it.',
  });
}

interface Context {
  readonly scope: LimitScope;
  readonly differ: (expr: Expr) => Expr;
}

function resolve(limits: LimitsExpr, context: Context): Limits {
  switch (limits.kind) {
    case 'single':
      return resolveSingle(context.differ(limits.of), context);
    case 'at-least': {
      const low = measure(context.differ(limits.low), context);
      return { low: lowEnd(low), unit: low.unit, resolution: low.resolution };
    }
    case 'at-most': {
      const high = measure(context.differ(limits.high), context);
      return { high: highEnd(high), unit: high.unit, resolution: high.resolution };
    }
    case 'range': {
      const [low, high] = [measure(context.differ(limits.low), context), measure(context.differ(limits.high), context)];
      const shown = finer(high, low);
      return { low: lowEnd(low), high: highEnd(high), unit: shown.unit, resolution: shown.resolution };
    }
    case 'around':
      return resolveAround({ ...limits, nominal: context.differ(limits.nominal) }, context);
  }
}

// a name keeps everything that its parameter has; a ranged expression is the range that it runs through
function resolveSingle(expr: Expr, context: Context): Limits {
  if (expr.kind === 'name') {
    const known = context.scope(expr.path);
    return known ?? fail({ start: expr.start, end: expr.end, message: `\`${expr.path}\` has no value here` });
  }
  const measured = measure(expr, context);
  const { value, unit, resolution } = measured;
  // one number in rad is one number, though no fraction of a turn is it
  const high = isRounded(measured) ? value.low : value.high;
  const exact = compare(value.low, high) === 0;
  return { low: value.low, high, ...(exact && { nominal: value.low }), unit, resolution };
}

function resolveAround(limits: Extract<LimitsExpr, { kind: 'around' }>, context: Context): Limits {
  const nominal = measure(limits.nominal, context);
  // a tolerance of a value in % is in points
  const ofNominal = limits.percent && nominal.unit.symbol !== '%';
  const part = (tolerance: Expr): Measured => measure(asTolerance(tolerance), context);
  const [minus, plus] = [part(limits.minus), part(limits.plus)];
  for (const [tolerance, expr] of [
    [minus, limits.minus],
    [plus, limits.plus],
  ] as const) {
    if (sign(tolerance.value.low) < 0)
      fail({
        start: expr.start,
        end: expr.end,
        message: 'The tolerance is negative',
        help: 'A tolerance is written without a sign.',
      });
  }
  const size = (tolerance: Measured): Scaled =>
    ofNominal ? multiplyRanges(tolerance.exact, absoluteRange(nominal.exact)) : tolerance.exact;
  const low = withPi(addRanges(nominal.exact, negateRange(size(minus))), 0);
  const high = withPi(addRanges(nominal.exact, size(plus)), 0);
  const middle = compare(nominal.value.low, nominal.value.high) === 0 ? { nominal: nominal.value.low } : {};
  // a rounded pi does not count as a range that narrows
  const [below, above] = isRounded(nominal) ? [low.low, high.high] : [low.high, high.low];
  const steps = [size(minus), size(plus)].map((step) => withPi(step, 0).high);
  const resolution = ofNominal
    ? percentResolution(nominal, [below, above], steps)
    : finer(nominal, finer(minus, plus)).resolution;
  return { low: below, high: above, ...middle, unit: nominal.unit, resolution };
}

function isRounded(measured: Measured): boolean {
  return measured.exact.pi !== 0 && compare(measured.exact.low, measured.exact.high) === 0;
}

// 2 % of 20 ft is 0.4 ft: its digits reach further than those of the nominal, as far as the ends need, if they end at all
function percentResolution(nominal: Measured, ends: readonly Rational[], steps: readonly Rational[]): Rational {
  const unit = nominal.unit;
  const written = ends.map((end) => fromBase(end, unit));
  const smallest = steps.filter((step) => sign(step) > 0).map((step) => decimalExponent(divide(step, unit.factor)));
  const last = smallest.length > 0 ? Math.min(...smallest) - 1 : 0;
  let resolution = nominal.resolution;
  for (let exponent = decimalExponent(resolution); exponent >= last; exponent -= 1) {
    if (written.every((end) => divide(end, resolution).den === 1n)) return resolution;
    resolution = tenTo(exponent - 1);
  }
  return compare(tenTo(last), nominal.resolution) < 0 ? tenTo(last) : nominal.resolution;
}

// The narrowing side of an end that is a range. An angle in rad is no fraction of a turn: outward, so that what is printed
// passes.
function lowEnd(measured: Measured): Rational {
  return isRounded(measured) ? measured.value.low : measured.value.high;
}

function highEnd(measured: Measured): Rational {
  return isRounded(measured) ? measured.value.high : measured.value.low;
}

/** A value with the unit and the digits that it is to be shown with. */
interface Measured {
  readonly value: Enclosure;
  readonly exact: Scaled;
  readonly unit: Unit;
  readonly resolution: Rational;
}

function measure(expr: Expr, context: Context): Measured {
  const exact = enclose(expr, { scope: (path) => rangeOfName(path, expr, context) });
  const { low, high } = withPi(exact, 0);
  const { unit, resolution } = look(expr, context, { low, high });
  return { value: { low, high }, exact, unit, resolution };
}

function rangeOfName(path: string, expr: Expr, context: Context): Enclosure | undefined {
  const limits = context.scope(path);
  const range = limits && enclosureOf(limits);
  if (limits && !range) {
    const place = findName(expr, path) ?? expr;
    fail({
      start: place.start,
      end: place.end,
      message: `\`${path}\` has one limit only and cannot be calculated with`,
      help: 'Give the parameter both ends.',
    });
  }
  return range;
}

function findName(expr: Expr, path: string): Expr | undefined {
  if (expr.kind === 'name') return expr.path === path ? expr : undefined;
  for (const part of partsOf(expr)) {
    const found = findName(part, path);
    if (found) return found;
  }
  return undefined;
}

interface Look {
  readonly unit: Unit;
  readonly resolution: Rational;
}

// The unit and digits of a result: those of the quantity in it that has the result's dimension, else base units.
function look(expr: Expr, context: Context, value: Enclosure): Look {
  const written = looks(expr, context);
  const result = written.find((one) => one.fits)?.look;
  if (result) {
    const coarse = written
      .filter((one) => one.fits && isConvertible(one.look.unit, result.unit))
      .map(({ look }) => convertStep(look, result.unit));
    return { unit: result.unit, resolution: coarse.reduce(larger) };
  }
  const unit = unitOfResult(expr, (path) => context.scope(path)?.unit);
  const size = larger(absolute(value.low), absolute(value.high));
  const inUnit = absolute(divide(size, unit.factor));
  return { unit, resolution: sign(inUnit) === 0 ? rational(1) : tenTo(decimalExponent(inUnit) - 3) };
}

function convertStep(from: Look, to: Unit): Rational {
  if (isSameSize(from.unit, to)) return from.resolution;
  const step = divide(multiply(from.resolution, from.unit.factor), to.factor);
  return compare(step, zero) > 0 ? tenTo(decimalExponent(step)) : from.resolution;
}

// every quantity in the expression; `fits` where a scale factor alone stands between it and the result
function looks(expr: Expr, context: Context): readonly { look: Look; fits: boolean }[] {
  if (expr.kind === 'number') return [{ look: { unit: expr.unit ?? noUnit, resolution: expr.resolution }, fits: true }];
  if (expr.kind === 'name') {
    const limits = context.scope(expr.path);
    return limits ? [{ look: { unit: limits.unit, resolution: limits.resolution }, fits: true }] : [];
  }
  if (expr.kind === 'in-unit')
    return looks(expr.of, context).map(({ look }) => ({
      look: { unit: expr.unit, resolution: look.resolution },
      fits: true,
    }));
  if (expr.kind === 'binary' && (expr.op === '*' || expr.op === '/')) return scaledLooks(expr, context);
  if (expr.kind === 'binary' && expr.op === '^') return [];
  if (expr.kind === 'call' && !/^(?:abs|min|max|mean|sum)$/.test(expr.name)) return [];
  return partsOf(expr).flatMap((part) => looks(part, context));
}

function scaledLooks(
  expr: Extract<Expr, { kind: 'binary' }>,
  context: Context,
): readonly { look: Look; fits: boolean }[] {
  const [left, right] = [looks(expr.left, context), looks(expr.right, context)];
  const bare = (list: typeof left): boolean =>
    list.every(({ look }) => look.unit.dimension.every((exponent) => exponent === 0));
  const [of, factor] = bare(right) && left.length > 0 ? [left, expr.right] : [right, expr.left];
  if (!(bare(right) || (bare(left) && expr.op === '*')) || of.length === 0) return [];
  if (bare(left) && bare(right)) return [];
  const { low, high } = withPi(enclose(factor, { scope: (path) => rangeOfName(path, factor, context) }), 0);
  const size = larger(absolute(low), absolute(high));
  if (sign(size) === 0) return of;
  const times = expr.op === '*' ? size : divide(rational(1), size);
  // the last digit moves with the factor, to the power of ten that is not coarser
  if (compare(times, rational(1)) >= 0) return of;
  return of.map(({ look, fits }) => ({
    look: { unit: look.unit, resolution: tenTo(decimalExponent(multiply(look.resolution, times))) },
    fits,
  }));
}

// the finer of two written resolutions, in the first one's unit
function finer(a: Measured, b: Measured): Measured {
  if (!isConvertible(a.unit, b.unit)) return a;
  const step = a.unit === b.unit ? b.resolution : divide(multiply(b.resolution, b.unit.factor), a.unit.factor);
  if (compare(step, a.resolution) >= 0 || sign(step) === 0) return a;
  return { ...a, resolution: a.unit === b.unit ? step : tenTo(decimalExponent(step)) };
}

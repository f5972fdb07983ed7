// The sharp range of an expression over ranged inputs: an outer bound that nothing can leave, and an inner one whose every
// value some inputs reach. Means, in this order: single use, inputs that act one way, corners, then halving the box.

import type { Enclosure, Scaled } from '../enclosure.js';
import { hull, isPoint, multiplyRanges, scaled } from '../enclosure.js';
import type { Rational } from '../rational.js';
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  rational,
  sign,
  smaller,
  subtract,
  toNumber,
  zero,
} from '../rational.js';
import type { Expr, Parsed } from './ast.js';
import type { Box } from './box.js';
import { boxOf, inputsIn, usesOf } from './box.js';
import { isOneWay } from './directions.js';
import type { Inputs, ValueScope } from './evaluate.js';
import { enclose, plain, widthOf } from './evaluate.js';
import { catchFault, FaultError, fail } from './fault.js';
import { namesIn, partsOf } from './names.js';
import { slopesOf } from './slopes.js';

/**
 * `outer` holds every value that the expression can take; every value in `attained` is taken by some inputs. Where nothing
 * was reached for sure, the low end of `attained` stands above its high end.
 */
export interface SharpRange {
  readonly outer: Enclosure;
  readonly attained: Enclosure;
  /** Both are the same, or differ by at most one part in 10^9 of the width (10^12 of the size); false where the budget ended. */
  readonly proved: boolean;
}

/**
 * All values of an expression while each name runs through its range, in base units; a name is one value wherever it
 * stands. `budget` bounds the work: about as many evaluations of an expression of ten parts. Example: `x * (1 - x)` over 0 to 1 is 0 to 1/4.
 */
export function rangeOf(expr: Expr, scope: ValueScope, budget = 3000): Parsed<SharpRange> {
  return catchFault(() => {
    const problem: Problem = { scope, left: { evaluations: budget } };
    checkDomains(expr, problem);
    return sharpen(expr, problem);
  });
}

interface Problem {
  readonly scope: ValueScope;
  readonly left: { evaluations: number };
}

function over(expr: Expr, box: Box, problem: Problem): Enclosure {
  problem.left.evaluations -= workOf(expr);
  return plain(enclose(expr, inputsIn(box, problem.scope)));
}

// a root or a sine takes as long as some forty sums
function workOf(expr: Expr): number {
  const own = isElementary(expr) ? 4 : 0.1;
  return partsOf(expr).reduce((sum, part) => sum + workOf(part), own);
}

function isElementary(expr: Expr): boolean {
  if (expr.kind === 'binary') return expr.op === '^' && !isWholeNumber(expr.right);
  return expr.kind === 'call' && /^(?:sqrt|a?sin|a?cos|a?tan)$/.test(expr.name);
}

function isWholeNumber(expr: Expr): boolean {
  return expr.kind === 'number' && expr.value.den === 1n;
}

// undefined where a divisor or root cannot be settled in this box: then the box is too large
function tryOver(expr: Expr, box: Box, problem: Problem): Enclosure | undefined {
  try {
    return over(expr, box, problem);
  } catch (error) {
    if (error instanceof FaultError) return undefined;
    throw error;
  }
}

// Every divisor, root and inverse sine must be sound over the whole box, its inner ones first.
function checkDomains(expr: Expr, problem: Problem): void {
  const written = expr.kind === 'around' || expr.kind === 'range';
  if (!written) for (const part of partsOf(expr)) checkDomains(part, problem);
  const watched = watchedPart(expr);
  // a part with columns is judged row by row when the whole is evaluated
  if (!watched || namesIn(expr).some(({ path }) => Array.isArray(problem.scope(path)))) return;
  const box: Box = boxOf(expr, problem.scope);
  try {
    over(expr, box, problem);
  } catch (error) {
    if (!(error instanceof FaultError)) throw error;
    const { outer, attained } = sharpen(watched, problem);
    const fine = (range: Enclosure): boolean => isSound(expr, watched, { range, problem });
    if (fine(outer)) return;
    if (!fine(attained)) throw error;
    fail({ ...error.fault, message: `${error.fault.message}; that it cannot was not proved` });
  }
}

function watchedPart(expr: Expr): Expr | undefined {
  if (expr.kind === 'binary') return expr.op === '/' ? expr.right : expr.op === '^' ? expr.left : undefined;
  return expr.kind === 'call' && /^(?:sqrt|tan|asin|acos)$/.test(expr.name) ? expr.args[0] : undefined;
}

// the operation itself judges: it is run with the sharp range in place of the part
function isSound(expr: Expr, watched: Expr, of: { range: Enclosure; problem: Problem }): boolean {
  const stand: Expr = { kind: 'range', low: watched, high: watched, start: watched.start, end: watched.end };
  const replaced = replacePart(expr, watched, stand);
  const inputs: Inputs = { scope: of.problem.scope, written: (node) => (node === stand ? of.range : undefined) };
  try {
    enclose(replaced, inputs);
    return true;
  } catch (error) {
    if (error instanceof FaultError) return false;
    throw error;
  }
}

function replacePart(expr: Expr, part: Expr, by: Expr): Expr {
  if (expr.kind === 'binary')
    return { ...expr, left: expr.left === part ? by : expr.left, right: expr.right === part ? by : expr.right };
  return expr.kind === 'call' ? { ...expr, args: expr.args.map((arg) => (arg === part ? by : arg)) } : expr;
}

function sharpen(expr: Expr, problem: Problem): SharpRange {
  const uses = usesOf(expr, problem.scope);
  const box: Box = new Map([...uses].map(([key, { range }]) => [key, range]));
  if (box.size === 0) {
    const value = over(expr, box, problem);
    return { outer: value, attained: value, proved: true };
  }
  const often = [...uses].filter(([, { count }]) => count > 1).map(([key]) => key);
  const oneWay = often.filter((key) => isOneWay(expr, key));
  const affordable = 2 ** often.length * workOf(expr) <= problem.left.evaluations;
  const corners = oneWay.length === often.length && affordable ? cornersOf(box, often) : undefined;
  const found = corners ? overCorners(expr, corners, problem) : undefined;
  if (found?.proved) return found;
  const halved = halve(expr, { box, split: often.length > 0 ? often : [...box.keys()] }, problem);
  return found ? judge(meet(found.outer, halved.outer), joinReached(found.attained, halved.attained)) : halved;
}

/** Every choice of an end for each of some inputs. */
function cornersOf(box: Box, keys: readonly string[]): readonly Box[] {
  return keys.reduce<readonly Box[]>(
    (boxes, key) =>
      boxes.flatMap((one) => {
        const range = box.get(key);
        return range ? [range.low, range.high].map((end) => new Map(one).set(key, { low: end, high: end })) : [one];
      }),
    [box],
  );
}

// Where each input that is used more than once acts one way, and the rest is used once, this is the range itself.
function overCorners(expr: Expr, corners: readonly Box[], problem: Problem): SharpRange | undefined {
  const ranges = corners.map((corner) => tryOver(expr, corner, problem));
  if (ranges.includes(undefined)) return undefined;
  const outer = (ranges as Enclosure[]).reduce(hull);
  if (isExact(expr)) return { outer, attained: outer, proved: true };
  return judge(outer, attainedBy(expr, corners, problem));
}

// roots and sines are rounded, so that a reached value is known only by trying
function isExact(expr: Expr): boolean {
  if (expr.kind === 'pi' || (expr.kind === 'number' && expr.unit && expr.unit.pi !== 0)) return false;
  return !isElementary(expr) && partsOf(expr).every(isExact);
}

// the range between the values that are reached for sure at some points of the boxes
function attainedBy(expr: Expr, boxes: readonly Box[], problem: Problem): Enclosure | undefined {
  let found: { low: Rational; high: Rational } | undefined;
  for (const box of boxes) {
    for (const point of [...cornersOf(box, [...box.keys()].slice(0, 5)), middleOf(box)]) {
      const at = tryOver(expr, new Map([...point].map(([key, range]) => [key, pointIn(range)])), problem);
      if (at)
        found = found
          ? { low: smaller(found.low, at.high), high: larger(found.high, at.low) }
          : { low: at.high, high: at.low };
    }
  }
  if (!found) return undefined;
  return compare(found.low, found.high) <= 0 ? found : { low: found.high, high: found.high };
}

// zero where it lies inside, for there squares and sizes turn; else the middle
function pointIn(range: Enclosure): Enclosure {
  if (sign(range.low) < 0 && sign(range.high) > 0) return { low: zero, high: zero };
  const middle = isPoint(range) ? range.low : multiply(add(range.low, range.high), rational(1, 2));
  return { low: middle, high: middle };
}

function middleOf(box: Box): Box {
  return new Map([...box].map(([key, range]) => [key, pointIn(range)]));
}

const partInBillion = rational(1, 10n ** 9n);

function judge(outer: Enclosure, attained: Enclosure | undefined): SharpRange {
  if (!attained) return { outer, attained: { low: outer.high, high: outer.low }, proved: false };
  const gap = larger(subtract(attained.low, outer.low), subtract(outer.high, attained.high));
  return { outer, attained, proved: compare(gap, roomAround(attained)) <= 0 };
}

// a part in 10^9 of the width; of a range that is hardly wide, a part in 10^12 of its size
function roomAround(attained: Enclosure): Rational {
  const size = larger(attained.high, subtract(zero, attained.low));
  return multiply(larger(widthOf(attained), multiply(size, rational(1, 1000))), partInBillion);
}

interface Piece {
  readonly box: Box;
  /** Undefined where the piece is too large to be settled. */
  readonly range: Enclosure | undefined;
}

// Halves the box where it matters until what is bounded and what is reached meet, or the budget ends.
function halve(expr: Expr, start: { box: Box; split: readonly string[] }, problem: Problem): SharpRange {
  let attained = attainedBy(expr, [start.box], problem);
  let settled: Enclosure | undefined;
  const look = (box: Box): Piece => {
    const { range, reached } = bound(expr, box, problem);
    if (reached) attained = attained ? hull(attained, reached) : reached;
    return { box, range };
  };
  let pieces: Piece[] = [look(start.box)];
  while (pieces.length > 0 && problem.left.evaluations > 0) {
    const reach = attained;
    const worst = pieces.reduce((a, b) => (excess(b, reach) > excess(a, reach) ? b : a));
    pieces = pieces.filter((piece) => piece !== worst);
    for (const box of split(worst.box, start)) {
      const piece = look(box);
      if (piece.range && attained && lies(piece.range, attained))
        settled = settled ? hull(settled, piece.range) : piece.range;
      else pieces.push(piece);
    }
    pieces = pieces.filter((piece) => {
      if (!piece.range || !attained || !lies(piece.range, attained)) return true;
      settled = settled ? hull(settled, piece.range) : piece.range;
      return false;
    });
  }
  if (pieces.some((piece) => !piece.range)) {
    over(expr, start.box, problem);
    fail({
      start: expr.start,
      end: expr.end,
      message: 'The range could not be bounded: a division or root was not settled in time',
      help: 'Narrow the inputs, or write the expression more simply.',
    });
  }
  const ranges = [settled, attained, ...pieces.map((piece) => piece.range)].filter((range) => range !== undefined);
  return judge(ranges.reduce(hull), attained);
}

// a hair of room: a rounded root never meets what is reached exactly
function lies(range: Enclosure, attained: Enclosure): boolean {
  const room = multiply(roomAround(attained), rational(1, 2));
  return compare(subtract(attained.low, room), range.low) <= 0 && compare(range.high, add(attained.high, room)) <= 0;
}

function excess(piece: Piece, attained: Enclosure | undefined): number {
  if (!piece.range || !attained) return Number.POSITIVE_INFINITY;
  const out = larger(subtract(attained.low, piece.range.low), subtract(piece.range.high, attained.high));
  return toNumber(out);
}

// the input that has been halved least, by the width that is left of its own
function split(box: Box, start: { box: Box; split: readonly string[] }): readonly Box[] {
  const left = (key: string): number => {
    const [range, whole] = [box.get(key), start.box.get(key)];
    return range && whole ? toNumber(divide(widthOf(range), widthOf(whole))) : 0;
  };
  const widest = start.split.reduce((a, b) => (left(b) > left(a) ? b : a));
  const range = box.get(widest);
  if (!range || isPoint(range)) return [box];
  const middle = pointIn(range).low;
  return [
    new Map(box).set(widest, { low: range.low, high: middle }),
    new Map(box).set(widest, { low: middle, high: range.high }),
  ];
}

// the range over one piece: each input that acts one way there put to its end, and the mean-value form about the middle
function bound(
  expr: Expr,
  box: Box,
  problem: Problem,
): { range: Enclosure | undefined; reached: Enclosure | undefined } {
  // about three parts more for each input
  problem.left.evaluations -= workOf(expr) * 3 * box.size;
  const slopes = slopesOf(expr, box, problem.scope);
  const [lowest, highest] = [new Map(box), new Map(box)];
  for (const [key, slope] of slopes) {
    const range = box.get(key);
    const direction = !slope ? 0 : sign(slope.low) >= 0 ? 1 : sign(slope.high) <= 0 ? -1 : 0;
    if (!range || direction === 0) continue;
    const [from, to] = direction > 0 ? [range.low, range.high] : [range.high, range.low];
    lowest.set(key, { low: from, high: from });
    highest.set(key, { low: to, high: to });
  }
  const [low, high] = [tryOver(expr, lowest, problem), tryOver(expr, highest, problem)];
  const points = [lowest, highest]
    .map((corner) => tryOver(expr, middleOf(corner), problem))
    .filter((at) => at !== undefined);
  const direct = low && high && { low: low.low, high: high.high };
  const range = narrow(direct, meanValue(expr, { box, slopes }, problem));
  if (points.length === 0) return { range, reached: undefined };
  const reached = { low: points.map((at) => at.high).reduce(smaller), high: points.map((at) => at.low).reduce(larger) };
  return {
    range,
    reached: compare(reached.low, reached.high) <= 0 ? reached : { low: reached.high, high: reached.high },
  };
}

// f(middle) + the sum of slope * (x - middle): its width shrinks with the square of the box
function meanValue(
  expr: Expr,
  of: { box: Box; slopes: ReadonlyMap<string, Scaled | undefined> },
  problem: Problem,
): Enclosure | undefined {
  const middle = middleOf(of.box);
  let sum = tryOver(expr, middle, problem);
  for (const [key, range] of of.box) {
    const [slope, at] = [of.slopes.get(key), middle.get(key)];
    if (!sum || !slope || !at) return undefined;
    const change = plain(multiplyRanges(slope, scaled(subtract(range.low, at.low), subtract(range.high, at.low))));
    sum = { low: add(sum.low, change.low), high: add(sum.high, change.high) };
  }
  return sum;
}

function narrow(a: Enclosure | undefined, b: Enclosure | undefined): Enclosure | undefined {
  return a && b ? meet(a, b) : (a ?? b);
}

function meet(a: Enclosure, b: Enclosure): Enclosure {
  return { low: larger(a.low, b.low), high: smaller(a.high, b.high) };
}

// where nothing was reached, low stands above high
function joinReached(a: Enclosure, b: Enclosure): Enclosure {
  if (compare(a.low, a.high) > 0) return b;
  return compare(b.low, b.high) > 0 ? a : hull(a, b);
}

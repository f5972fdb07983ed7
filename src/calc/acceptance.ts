// Limits that decide on a reading: the tolerance less the uncertainty at each side that has a limit (JCGM 106, 8.3;
// ILAC-G8), on the grid that the instrument can show. Every comparison is exact: what passes as printed passes.

import type { DecisionRule } from './decision-rule.js';
import type { Instrument } from './instrument.js';
import { expandedUncertainty, squaredUncertainty } from './instrument.js';
import type { Limits } from './limits.js';
import { toleranceOf } from './limits.js';
import type { Rational } from './rational.js';
import {
  add,
  compare,
  decimalExponent,
  divide,
  larger,
  multiply,
  negate,
  rational,
  sign,
  subtract,
  tenTo,
  toInteger,
  zero,
} from './rational.js';

export interface Acceptance {
  /** What decides and is shown, rounded inward to the instrument's resolution; undefined where no reading can pass. */
  readonly limits?: Limits;
  /** `three-zone`: outside these a reading fails for sure; between them and `limits` it is too close to call. Rounded outward. */
  readonly failing?: Limits;
  /** Tolerance width / 2U at the worse end; undefined for one-sided limits or an instrument without error. */
  readonly ratio?: Rational;
  /** Resolution / tolerance width; undefined for one-sided limits or without resolution. */
  readonly coarseness?: Rational;
}

/** What is judged: limits, with what they are read, and by which rule. */
export interface AcceptanceCase {
  readonly limits: Limits;
  readonly instrument?: Instrument | undefined;
  readonly decision: DecisionRule;
}

/** The acceptance limits of a value that is read directly. Without an instrument these are the limits as written. */
export function acceptanceLimits(of: AcceptanceCase): Acceptance {
  const { limits, instrument, decision } = of;
  if (!instrument) return { limits };
  const { resolution, unit } = instrument;
  return judge({
    limits,
    decision,
    resolution,
    unit: unit ?? limits.unit,
    guard: (reading) => squaredUncertainty(instrument, reading),
    worst: worstUncertainty(limits, instrument),
  });
}

/** The acceptance limits where one uncertainty U holds for all readings; `resolution` in base units. */
export function acceptanceByUncertainty(of: {
  readonly limits: Limits;
  readonly uncertainty: Rational;
  readonly resolution?: Rational | undefined;
  readonly decision: DecisionRule;
}): Acceptance {
  const { limits, uncertainty, resolution, decision } = of;
  const squared = multiply(uncertainty, uncertainty);
  return judge({ limits, decision, resolution, unit: limits.unit, guard: () => squared, worst: uncertainty });
}

interface Judged {
  readonly limits: Limits;
  readonly decision: DecisionRule;
  readonly resolution: Rational | undefined;
  readonly unit: Limits['unit'];
  /** U^2 of a reading. */
  readonly guard: Guard;
  readonly worst: Rational;
}

function judge(of: Judged): Acceptance {
  const { limits, decision, resolution, worst } = of;
  const grid = gridOf(of);
  const guard: Guard = decision === 'simple' ? () => zero : of.guard;
  const inner = {
    low: limits.low && innerLow(limits.low, grid, guard),
    high: limits.high && innerHigh(limits.high, grid, guard),
  };
  const tolerance = toleranceOf(limits);
  const wide = tolerance && sign(tolerance) > 0 ? tolerance : undefined;
  return {
    ...accepted(limits, inner, grid),
    ...(decision === 'three-zone' && { failing: shownOn(grid, limits, outerEnds(limits, grid, guard)) }),
    ...(tolerance && sign(worst) > 0 && { ratio: divide(tolerance, multiply(rational(2), worst)) }),
    ...(wide && resolution && { coarseness: divide(resolution, wide) }),
  };
}

function outerEnds(limits: Limits, grid: Grid, guard: Guard): Ends {
  return {
    low: limits.low && outerLow(limits.low, grid, guard),
    high: limits.high && outerHigh(limits.high, grid, guard),
  };
}

/** False where no reading would do. */
interface Ends {
  readonly low: Rational | undefined | false;
  readonly high: Rational | undefined | false;
}

/** Readings are `origin` + whole multiples of `step`, in base units. */
interface Grid {
  readonly step: Rational;
  readonly origin: Rational;
  readonly unit: Limits['unit'];
}

function gridOf({ limits, resolution, unit, worst }: Judged): Grid {
  const origin = unit.offset ?? zero;
  if (resolution && sign(resolution) > 0) return { step: resolution, origin, unit };
  // no resolution is known: a tenth of the uncertainty loses little, and is no coarser than the book's own digits
  const own = divide(multiply(limits.resolution, limits.unit.factor), unit.factor);
  const fine = sign(worst) > 0 ? tenTo(decimalExponent(divide(worst, unit.factor)) - 1) : own;
  return { step: multiply(compare(fine, own) < 0 ? fine : own, unit.factor), origin, unit };
}

function worstUncertainty(limits: Limits, instrument: Instrument): Rational {
  return [limits.low, limits.high]
    .filter((end) => end !== undefined)
    .map((end) => expandedUncertainty(instrument, end))
    .reduce(larger, zero);
}

function accepted(limits: Limits, ends: Ends, grid: Grid): { limits?: Limits } {
  const { low, high } = ends;
  if (low === false || high === false || (low && high && compare(low, high) > 0)) return {};
  return { limits: shownOn(grid, limits, { low, high }) };
}

function shownOn(grid: Grid, limits: Limits, ends: Ends): Limits {
  const { low, high } = ends;
  const resolution = divide(grid.step, grid.unit.factor);
  return {
    ...(low && { low }),
    ...(high && { high }),
    ...(limits.nominal && { nominal: limits.nominal }),
    unit: grid.unit,
    resolution,
  };
}

type Guard = (reading: Rational) => Rational;

/** The first reading on the grid whose distance above `low` is U or more; false where none is within reach. */
function innerLow(low: Rational, grid: Grid, guard: Guard): Rational | false {
  const clear = (reading: Rational): boolean => {
    const distance = subtract(reading, low);
    return sign(distance) >= 0 && compare(multiply(distance, distance), guard(reading)) >= 0;
  };
  return firstClear(low, grid, clear);
}

function innerHigh(high: Rational, grid: Grid, guard: Guard): Rational | false {
  const found = innerLow(negate(high), { ...grid, origin: negate(grid.origin) }, (reading) => guard(negate(reading)));
  return found === false ? false : negate(found);
}

/** The first reading on the grid that may still belong to a value at `low` or above: reading + U reaches it. */
function outerLow(low: Rational, grid: Grid, guard: Guard): Rational | false {
  const may = (reading: Rational): boolean => {
    const distance = subtract(low, reading);
    return sign(distance) <= 0 || compare(multiply(distance, distance), guard(reading)) <= 0;
  };
  const start = firstClear(low, grid, may);
  if (start === false) return false;
  // back down while readings may still be good
  return searchDown(start, grid.step, may);
}

function outerHigh(high: Rational, grid: Grid, guard: Guard): Rational | false {
  const found = outerLow(negate(high), { ...grid, origin: negate(grid.origin) }, (reading) => guard(negate(reading)));
  return found === false ? false : negate(found);
}

const reach = 60;

// doubling steps find a clear reading, halving finds the first; U grows slower than the reading, or nothing is found
function firstClear(from: Rational, grid: Grid, clear: (reading: Rational) => boolean): Rational | false {
  const start = toInteger(divide(subtract(from, grid.origin), grid.step), 'up');
  const at = (index: bigint): Rational => add(grid.origin, multiply(rational(index), grid.step));
  if (clear(at(start))) return at(start);
  let bad = start;
  for (let i = 0; i < reach; i += 1) {
    const good = start + (1n << BigInt(i));
    if (clear(at(good))) return at(halve(bad, good, (index) => clear(at(index))));
    bad = good;
  }
  return false;
}

function searchDown(from: Rational, step: Rational, may: (reading: Rational) => boolean): Rational | false {
  const at = (count: bigint): Rational => subtract(from, multiply(rational(count), step));
  let good = 0n;
  for (let i = 0; i < reach; i += 1) {
    const next = 1n << BigInt(i);
    if (!may(at(next))) return at(halve(next, good, (count) => may(at(count))));
    good = next;
  }
  return false;
}

function halve(bad: bigint, good: bigint, clear: (index: bigint) => boolean): bigint {
  let [no, yes] = [bad, good];
  while (yes - no > 1n || no - yes > 1n) {
    const middle = (no + yes) / 2n;
    if (clear(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

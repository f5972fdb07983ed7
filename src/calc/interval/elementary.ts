// The elementary functions of IEEE Std 1788-2015 on intervals: which members and turning points give the ends.
// The values themselves come from points.ts as neighbouring floats, so the ends are as tight as floats allow.

import { EMPTY, ENTIRE, type Interval, interval, isBounded, isEmpty } from './interval.js';
import {
  acosAt,
  asinAt,
  atan2At,
  atanAt,
  cosAt,
  expAt,
  halfTurn,
  logAt,
  quarterTurn,
  type Reduced,
  reduceAngle,
  sinAt,
  tanAt,
} from './points.js';

/** All e^x. Ends are 0 and Infinity where `x` is unbounded. */
export function exp(x: Interval): Interval {
  if (isEmpty(x)) return EMPTY;
  return {
    low: x.low === -Infinity ? 0 : expAt(x.low).low,
    high: x.high === Infinity ? Infinity : expAt(x.high).high,
  };
}

/** All natural logarithms of members above 0; empty where there are none. */
export function log(x: Interval): Interval {
  if (isEmpty(x) || x.high <= 0) return EMPTY;
  return {
    low: x.low <= 0 ? -Infinity : logAt(x.low).low,
    high: x.high === Infinity ? Infinity : logAt(x.high).high,
  };
}

/** All sines, `x` in radians. `sin(interval(1, 2))` is 0.8414709848078965 to 1. */
export function sin(x: Interval): Interval {
  return wave(x, { at: sinAt, zero: 0, top: 1n, bottom: 3n });
}

/** All cosines, `x` in radians. */
export function cos(x: Interval): Interval {
  return wave(x, { at: cosAt, zero: 1, top: 0n, bottom: 2n });
}

interface Wave {
  readonly at: (angle: Reduced) => Interval;
  /** The value at angle 0. */
  readonly zero: number;
  /** How many quarter turns the highest and the lowest place are from 0, in 0..3. */
  readonly top: bigint;
  readonly bottom: bigint;
}

function wave(x: Interval, shape: Wave): Interval {
  if (isEmpty(x)) return EMPTY;
  // Seven is more than a whole turn.
  if (!isBounded(x) || x.high - x.low > 7) return { low: -1, high: 1 };
  const first = reduceAngle(x.low);
  const last = x.high === x.low ? first : reduceAngle(x.high);
  const start = valueAt(x.low, first, shape);
  const end = x.high === x.low ? start : valueAt(x.high, last, shape);
  return {
    low: holdsQuarter(x, first, last, shape.bottom) ? -1 : Math.min(start.low, end.low),
    high: holdsQuarter(x, first, last, shape.top) ? 1 : Math.max(start.high, end.high),
  };
}

function valueAt(x: number, angle: Reduced, shape: Wave): Interval {
  return x === 0 ? { low: shape.zero, high: shape.zero } : shape.at(angle);
}

/** Whether k quarter turns are in `x` for some whole k = place mod 4. 0 is the only float that is a multiple. */
function holdsQuarter(x: Interval, first: Reduced, last: Reduced, place: bigint): boolean {
  const from = x.low === 0 ? 0n : first.quarters + 1n;
  const next = from + ((place - from) & 3n);
  return next <= last.quarters;
}

/** All tangents, `x` in radians; all numbers where a pole (an odd number of quarter turns) is inside. */
export function tan(x: Interval): Interval {
  if (isEmpty(x)) return EMPTY;
  if (!isBounded(x) || x.high - x.low > 4) return ENTIRE;
  const first = reduceAngle(x.low);
  const last = reduceAngle(x.high);
  if (holdsQuarter(x, first, last, 1n) || holdsQuarter(x, first, last, 3n)) return ENTIRE;
  return { low: x.low === 0 ? 0 : tanAt(first).low, high: x.high === 0 ? 0 : tanAt(last).high };
}

/** All arc sines (radians) of members between -1 and 1; empty where there are none. */
export function asin(x: Interval): Interval {
  if (isEmpty(x) || x.high < -1 || x.low > 1) return EMPTY;
  return { low: asinAt(Math.max(x.low, -1)).low, high: asinAt(Math.min(x.high, 1)).high };
}

/** All arc cosines (radians) of members between -1 and 1; empty where there are none. */
export function acos(x: Interval): Interval {
  if (isEmpty(x) || x.high < -1 || x.low > 1) return EMPTY;
  return { low: acosAt(Math.min(x.high, 1)).low, high: acosAt(Math.max(x.low, -1)).high };
}

/** All arc tangents, in radians. */
export function atan(x: Interval): Interval {
  if (isEmpty(x)) return EMPTY;
  return {
    low: x.low === -Infinity ? 0 - quarterTurn().high : atanAt(x.low).low,
    high: x.high === Infinity ? quarterTurn().high : atanAt(x.high).high,
  };
}

/** A float enclosure of pi. */
export function pi(): Interval {
  return halfTurn();
}

/**
 * The angles (radians, above -pi, up to pi) of all points (x, y) but the origin, which has none. Where the box reaches
 * both sides of the negative x-axis the angle jumps there, and all angles are given.
 */
export function atan2(y: Interval, x: Interval): Interval {
  if (isEmpty(x) || isEmpty(y) || (x.low === 0 && x.high === 0 && y.low === 0 && y.high === 0)) return EMPTY;
  if (x.low < 0 && y.low < 0 && y.high >= 0) return interval(0 - halfTurn().high, halfTurn().high);
  const corners = [
    cornerAngle(y.low, x.low),
    cornerAngle(y.low, x.high),
    cornerAngle(y.high, x.low),
    cornerAngle(y.high, x.high),
  ];
  return { low: Math.min(...corners.map((c) => c.low)), high: Math.max(...corners.map((c) => c.high)) };
}

/**
 * The angle towards a corner; EMPTY for the origin, which has none, and for a corner at infinity both ways, whose
 * directions lie between those of its neighbours.
 */
function cornerAngle(y: number, x: number): Interval {
  if ((x === 0 && y === 0) || (!Number.isFinite(x) && !Number.isFinite(y))) return EMPTY;
  if (!Number.isFinite(x)) return x > 0 ? atan2At(0, 1) : y < 0 ? mirror(halfTurn()) : halfTurn();
  if (!Number.isFinite(y)) return y > 0 ? quarterTurn() : mirror(quarterTurn());
  return atan2At(y, x);
}

function mirror(x: Interval): Interval {
  return { low: 0 - x.high, high: 0 - x.low };
}

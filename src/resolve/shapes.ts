// What kind of value something is: its dimension, and whether a temperature is a point or a difference.

import { dimension, quantityDimension, sameDimension } from '../calc/dimension.js';
import { describeShape, type Shape } from '../calc/expression/dimensions.js';
import type { Limits } from '../calc/limits.js';
import type { Dimension, Unit } from '../calc/unit.js';
import { asDifference } from '../calc/unit.js';

const temperature = dimension({ temperature: 1 });

/** The shape of a time: what `hold` and `wait` are. */
export const timeShape: Shape = { dimension: dimension({ time: 1 }) };

/** The shape of something written in a unit: degrees with a zero point are points, without one differences, K may be either. */
export function shapeOfUnit(unit: Unit): Shape {
  if (!isTemperature(unit.dimension) || unit.symbol === 'K') return { dimension: unit.dimension };
  return { dimension: unit.dimension, temperature: unit.offset ? 'point' : 'difference' };
}

/** The shape of limits, as far as they are known. */
export function shapeOfLimits(limits: Limits): Shape;
export function shapeOfLimits(limits: Limits | undefined): Shape | undefined;
export function shapeOfLimits(limits: Limits | undefined): Shape | undefined {
  return limits && shapeOfUnit(limits.unit);
}

/** The shape that a `quantity:` names; undefined for a name that is none. */
export function shapeOfQuantity(kind: string): Shape | undefined {
  const found = quantityDimension(kind);
  if (!found) return undefined;
  if (!isTemperature(found)) return { dimension: found };
  return { dimension: found, temperature: /difference/.test(kind) ? 'difference' : 'point' };
}

/** The same as a change: what an adjuster does to a value, what a resolution is. */
export function asChange(shape: Shape): Shape {
  return isTemperature(shape.dimension) ? { dimension: shape.dimension, temperature: 'difference' } : shape;
}

/** A unit for a shape: a difference of temperatures has no zero point. */
export function unitForShape(unit: Unit, shape: Shape): Unit {
  return shape.temperature === 'difference' ? asDifference(unit) : unit;
}

/** `a voltage`, `an area`: what a shape is called. */
export function sayShape(shape: Shape): string {
  return withArticle(describeShape(shape));
}

/** `a voltage`, `an area`. */
export function withArticle(noun: string): string {
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

function isTemperature(of: Dimension): boolean {
  return sameDimension(of, temperature);
}

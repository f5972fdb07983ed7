// From one unit to another, exactly. Knows no table of units: what runs on a phone carries the units that it needs.

import { dimensionless, sameDimension } from './dimension.js';
import type { Rational } from './rational.js';
import { add, divide, equals, multiply, one, subtract } from './rational.js';
import type { Unit } from './unit-type.js';

/** The unit of a bare number. */
export const noUnit: Unit = { symbol: '', dimension: dimensionless, factor: one, pi: 0, ucum: '1', system: 'both' };

/** The same unit as a difference: `degF` without its zero point, so that 10 of it are 10 * 5/9 K. */
export function asDifference(unit: Unit): Unit {
  if (!unit.offset) return unit;
  const { symbol, dimension, factor, pi, system } = unit;
  return { symbol, dimension, factor, pi, system };
}

/** `value` of `unit` in base units, without the unit's power of pi. */
export function toBase(value: Rational, unit: Unit): Rational {
  const scaled = multiply(value, unit.factor);
  return unit.offset ? add(scaled, unit.offset) : scaled;
}

/** A base value in `unit`, without the unit's power of pi. */
export function fromBase(base: Rational, unit: Unit): Rational {
  return divide(unit.offset ? subtract(base, unit.offset) : base, unit.factor);
}

/** Whether two units measure the same thing, so that one converts to the other. */
export function isConvertible(a: Unit, b: Unit): boolean {
  return sameDimension(a.dimension, b.dimension);
}

/** Whether two units are the same size, whatever they are called. */
export function isSameSize(a: Unit, b: Unit): boolean {
  const offsets = a.offset && b.offset ? equals(a.offset, b.offset) : a.offset === b.offset;
  return isConvertible(a, b) && equals(a.factor, b.factor) && a.pi === b.pi && offsets;
}

// Numbers as texts.
import type { Limits } from './limits.js';
import type { Rational, Rounding } from './rational.js';
import type { Unit } from './unit.js';

/** A base value in `unit` with the digits that `resolution` (in `unit`) has: `3.60 V`, `17 ft 5 in`, `3 1/8 in`. U+00A0 joins number and unit. */
export function formatQuantity(
  _value: Rational,
  _as: { unit: Unit; resolution: Rational },
  _rounding: Rounding = 'nearest',
): string {
  throw new Error('Not ready');
}
/** `3.6 to 4.2 V`, `at least 2.5 V`, `20 ft` in the unit they were written in, rounded inward. */
export function formatLimits(_limits: Limits): string {
  throw new Error('Not ready');
}
/** Both systems: `20 ft (6.096 m)`, the one of `first` in front; the written one alone where the unit belongs to both. */
export function formatBoth(_limits: Limits, _first: 'us' | 'si'): string {
  throw new Error('Not ready');
}
/** The same limits in another unit, ends rounded inward to a like resolution; undefined where nothing is left. */
export function limitsIn(_limits: Limits, _unit: Unit): Limits | undefined {
  throw new Error('Not ready');
}

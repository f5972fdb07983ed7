// Results of calculations as plain numbers: all digits where they end, else ten significant ones, rounded outward.

import { fromBase } from './conversion.js';
import { piBounds } from './elementary.js';
import type { Enclosure, Rational, Rounding } from './rational.js';
import {
  absolute,
  compare,
  decimalExponent,
  divide,
  exactDecimals,
  formatDecimals,
  multiply,
  power,
  rational,
  sign,
  subtract,
  toInteger,
  toNumber,
} from './rational.js';
import type { Unit } from './unit-type.js';

const digits = 10;
const mostDigits = 15;

function inUnit(base: Rational, unit: Unit): Rational {
  const plain = fromBase(base, unit);
  return unit.pi === 0 ? plain : multiply(plain, power(piBounds.low, -unit.pi));
}

/** A base value in a unit as the float that reads the same where its decimals end early, else the next one in a direction. */
export function numberIn(base: Rational, unit: Unit, rounding: Rounding): number {
  const value = inUnit(base, unit);
  return toNumber(value, isShort(value) ? 'nearest' : rounding);
}

function isShort(value: Rational): boolean {
  const decimals = exactDecimals(value);
  return (
    decimals !== undefined &&
    Math.max(decimalExponent(absolute(sign(value) === 0 ? { num: 1n, den: 1n } : value)), 0) + decimals < mostDigits
  );
}

function format(value: Rational, rounding: Rounding): string {
  if (sign(value) === 0) return '0';
  const exponent = decimalExponent(absolute(value));
  if (exponent >= mostDigits || exponent < -digits) return formatPower(value, exponent, rounding);
  if (isShort(value)) return formatDecimals(value, exactDecimals(value) ?? 0);
  return formatDecimals(value, Math.max(digits - 1 - exponent, 0), rounding);
}

function formatPower(value: Rational, exponent: number, rounding: Rounding): string {
  const ten = { num: 10n, den: 1n };
  const mantissa = formatDecimals(divide(value, power(ten, exponent)), digits - 1, rounding);
  return `${mantissa.replace(/\.?0+$/, '')}e${exponent}`;
}

/**
 * A value or a range as text: `6.096 m`, `0 to 0.25`, `at least 2 V`. A `single` value is the nearest, ends of a range are
 * rounded outward; digits end where the number does.
 */
export function formatExact(range: Partial<Enclosure>, unit: Unit, single: boolean): string {
  const { low, high } = range;
  const text = (base: Rational, rounding: Rounding): string => write(inUnit(base, unit), unit, rounding);
  const symbol = unit.symbol === '' || unit.over ? '' : ` ${unit.symbol}`;
  if (low && high) {
    if (single) return text(low, 'nearest') + symbol;
    const [from, to] = [text(low, 'down'), text(high, 'up')];
    return (compare(low, high) === 0 || from === to ? from : `${from} to ${to}`) + symbol;
  }
  if (low) return `at least ${text(low, 'down')}${symbol}`;
  return high ? `at most ${text(high, 'up')}${symbol}` : 'any value';
}

function write(value: Rational, unit: Unit, rounding: Rounding): string {
  if (!unit.over) return format(value, rounding);
  const ratio = divide(unit.over.factor, unit.factor);
  const size = absolute(value);
  const whole = toInteger(divide(size, ratio), 'down');
  const rest = format(subtract(size, multiply(rational(whole), ratio)), rounding);
  return `${sign(value) < 0 ? '-' : ''}${whole} ${unit.over.symbol} ${rest} ${unit.symbol.slice(unit.over.symbol.length + 1)}`;
}

// Numbers and limits as texts, with the digits that their source had: limits rounded inward, enclosures outward, number and
// unit joined by a space that does not break. Nothing is decided here.

import { asDifference, fromBase, isSameSize, toBase } from './conversion.js';
import { piBounds } from './elementary.js';
import type { Limits } from './limits.js';
import { isSingle } from './limits.js';
import type { Enclosure, Rational, Rounding } from './rational.js';
import {
  absolute,
  compare,
  decimalExponent,
  divide,
  equals,
  exactDecimals,
  formatDecimals,
  multiply,
  power,
  rational,
  sign,
  subtract,
  tenTo,
  toInteger,
  toMultiple,
} from './rational.js';
import type { Unit } from './unit-type.js';

const joint = '\u00a0';

/** How a value is shown: in which unit, to which step of it. */
export interface Look {
  readonly unit: Unit;
  /** In `unit`. */
  readonly resolution: Rational;
}

/**
 * A base value in a unit, to the step that `resolution` is: `3.60 V`, `-12 deg`, `17 ft 5 in`, `3 1/8 in`. The space is
 * U+00A0. Ends of limits are rounded `up` (low) and `down` (high), those of enclosures the other way.
 */
export function formatQuantity(value: Rational, as: Look, rounding: Rounding = 'nearest'): string {
  return joinUnit(formatNumber(stepped(value, as, rounding), as), as.unit);
}

/** What is shown of limits in the unit and digits they were written with: `3.6 to 4.2 V`, `at least 2.5 V`, `20 ft`. */
export function formatLimits(limits: Limits): string {
  if (isSingle(limits) && limits.low) return formatQuantity(limits.low, exactLook(limits.low, limits) ?? limits);
  const shown = finelyEnough(limits);
  if (shown.low && shown.high) return formatPair(shown.low, shown.high, shown);
  if (shown.low) return `at least ${formatQuantity(shown.low, shown, 'up')}`;
  return shown.high ? `at most ${formatQuantity(shown.high, shown, 'down')}` : 'any value';
}

// limits that lie between two steps need finer ones; both ends are fractions, so that some step is fine enough
function finelyEnough(limits: Limits): Limits {
  let look: Limits = limits;
  for (;;) {
    const shown = limitsIn(look, look.unit);
    if (shown) return shown;
    look = { ...look, resolution: tenTo(decimalExponent(look.resolution) - 1) };
  }
}

/**
 * Limits in another unit: ends rounded inward to the power of ten that is no coarser than the written resolution.
 * Undefined where nothing is left. A single number keeps its value: all digits where three more than usual are enough, else
 * one more.
 */
export function limitsIn(limits: Limits, unit: Unit): Limits | undefined {
  const same = isSameSize(limits.unit, unit);
  const resolution = same ? limits.resolution : likeResolution(limits, unit);
  const look = { unit, resolution };
  if (isSingle(limits) && limits.low) {
    const finer = { unit, resolution: same ? resolution : multiply(resolution, tenTo(-1)) };
    return { ...limits, ...(exactLook(limits.low, look) ?? finer) };
  }
  const low = limits.low && toBaseOf(stepped(limits.low, look, 'up'), unit);
  const high = limits.high && toBaseOf(stepped(limits.high, look, 'down'), unit);
  if (low && high && compare(low, high) > 0) return undefined;
  const { nominal } = limits;
  return { ...(low && { low }), ...(high && { high }), ...(nominal && { nominal }), ...look };
}

/** An enclosure rounded outward: `2.50 to 3.50 V`, or one number where both ends read the same. */
export function formatEnclosure(range: Enclosure, as: Look): string {
  const [low, high] = [stepped(range.low, as, 'down'), stepped(range.high, as, 'up')];
  if (equals(low, high)) return joinUnit(formatNumber(low, as), as.unit);
  return pairOf(formatNumber(low, as), formatNumber(high, as), as.unit);
}

/** The step in another unit that tells no more than the written one and no less: the power of ten at or below it. */
export function likeResolution(from: Look, unit: Unit): Rational {
  const pi = power(piBounds.low, from.unit.pi - unit.pi);
  return tenTo(decimalExponent(multiply(divide(multiply(from.resolution, from.unit.factor), unit.factor), pi)));
}

// The digits that write a plain number exactly, where that is at most three more than are usual.
function exactLook(value: Rational, look: Look): Look | undefined {
  const inUnit = valueIn(value, look.unit);
  if (divide(inUnit, look.resolution).den === 1n) return look;
  const usual = -decimalExponent(look.resolution);
  const needed = exactDecimals(inUnit, Math.max(usual, 0) + 3);
  return needed === undefined ? undefined : { unit: look.unit, resolution: tenTo(-needed) };
}

const hair = rational(1, 10n ** 40n);

// a base value in a unit; of a unit with a power of pi to eighty digits
function valueIn(base: Rational, unit: Unit): Rational {
  const plain = fromBase(base, unit);
  return unit.pi === 0 ? plain : multiply(plain, power(piBounds.low, -unit.pi));
}

function toBaseOf(value: Rational, unit: Unit): Rational {
  return unit.pi === 0 ? toBase(value, unit) : multiply(toBase(value, unit), power(piBounds.low, unit.pi));
}

/**
 * A step that neither a ruler nor decimals can show (1 mm in feet) gives way to the power of ten at or below it. Limits are
 * still rounded inward, so that whatever passes as printed passes.
 */
function readable(as: Look): Look {
  const { num, den } = as.resolution;
  const isFraction = num === 1n && (den & (den - 1n)) === 0n;
  if (isFraction || exactDecimals(as.resolution) !== undefined) return as;
  return { unit: as.unit, resolution: tenTo(decimalExponent(as.resolution)) };
}

function stepped(base: Rational, as: Look, rounding: Rounding): Rational {
  const { resolution } = readable(as);
  const value = valueIn(base, as.unit);
  const nearest = toMultiple(value, resolution, 'nearest');
  // through pi a written number comes back a hair off, which is no reason to round it away
  if (as.unit.pi !== 0 && compare(absolute(subtract(value, nearest)), hair) < 0) return nearest;
  return rounding === 'nearest' ? nearest : toMultiple(value, resolution, rounding);
}

function formatPair(low: Rational, high: Rational, as: Look): string {
  const [from, to] = [formatNumber(stepped(low, as, 'up'), as), formatNumber(stepped(high, as, 'down'), as)];
  return pairOf(from, to, as.unit);
}

function pairOf(from: string, to: string, unit: Unit): string {
  return unit.over ? `${from} to ${to}` : `${from} to ${joinUnit(to, unit)}`;
}

function joinUnit(number: string, unit: Unit): string {
  return unit.symbol === '' || unit.over ? number : number + joint + unit.symbol.replaceAll(' ', joint);
}

function formatNumber(value: Rational, written: Look): string {
  const as = readable(written);
  const fraction = isRuled(as);
  if (!as.unit.over) return formatStep(value, as.resolution, fraction);
  const smaller = asDifference(as.unit).symbol.slice(as.unit.over.symbol.length + 1);
  const ratio = divide(as.unit.over.factor, as.unit.factor);
  const size = absolute(value);
  const whole = rational(toInteger(divide(size, ratio), 'down'));
  const rest = formatStep(subtract(size, multiply(whole, ratio)), as.resolution, fraction);
  const text = `${whole.num}${joint}${as.unit.over.symbol}${joint}${rest.replaceAll(' ', joint)}${joint}${smaller}`;
  return sign(value) < 0 ? `-${text}` : text;
}

// inches and feet are ruled in halves, quarters, eighths; every other unit in tenths
function isRuled({ unit, resolution }: Look): boolean {
  const { num, den } = resolution;
  return num === 1n && den > 1n && (den & (den - 1n)) === 0n && unit.system === 'us' && unit.dimension[0] === 1;
}

// `3 1/8` where the step is a fraction, else as many decimals as the step has
function formatStep(value: Rational, resolution: Rational, asFraction: boolean): string {
  const decimals = exactDecimals(resolution);
  if (decimals !== undefined && !asFraction) return formatDecimals(value, decimals);
  const size = absolute(value);
  const whole = toInteger(size, 'down');
  const rest = subtract(size, rational(whole));
  const part = sign(rest) === 0 ? '' : `${rest.num}/${rest.den}`;
  const text = part === '' ? `${whole}` : whole === 0n ? part : `${whole}${joint}${part}`;
  return sign(value) < 0 ? `-${text}` : text;
}

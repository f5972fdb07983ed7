// Sensors whose output is a share of their supply: what a voltage means when the supply is not exactly nominal.

import { requireNotNegative, requirePositive, requireShare } from '../statistics/require.js';

/** From low to high, ends included. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

function requireRange(range: Range, name: string): Range {
  if (!(range.low <= range.high))
    throw new RangeError(`Unexpected ${name} ${range.low} to ${range.high}, expected low <= high`);
  return range;
}

/** Output in V of a ratiometric sensor: V = f Vs, for a share f from 0 to 1 and a supply of 0 V or more. Exact but for rounding. */
export function ratiometricOutput(share: number, supply: number): number {
  return requireShare(share, 'share of the supply') * requireNotNegative(supply, 'supply');
}

/** The share of the supply that a voltage is: V / Vs, for a supply above 0 V. */
export function shareOfSupply(voltage: number, supply: number): number {
  return voltage / requirePositive(supply, 'supply');
}

/**
 * All voltages that shares of `shares` give with any supply of `supply`: f_low Vs_low to f_high Vs_high. With 10 % to 90 %
 * and 5 V ± 5 %: 0.475 V to 4.725 V.
 */
export function outputRange(shares: Range, supply: Range): Range {
  requireRange(shares, 'shares');
  requireRange(supply, 'supply');
  return { low: ratiometricOutput(shares.low, supply.low), high: ratiometricOutput(shares.high, supply.high) };
}

/**
 * The voltages that lie within `shares` whatever the supply is within its tolerance: f_low Vs_high to f_high Vs_low.
 * Undefined where there are none. A voltage read without the supply proves no more than this.
 */
export function provenRange(shares: Range, supply: Range): Range | undefined {
  requireRange(shares, 'shares');
  requireRange(supply, 'supply');
  const low = ratiometricOutput(shares.low, supply.high);
  const high = ratiometricOutput(shares.high, supply.low);
  return low <= high ? { low, high } : undefined;
}

/** A straight-line sensor through two known points: output = from.output + slope (input - from.input). */
export interface TwoPoints {
  readonly from: { readonly input: number; readonly output: number };
  readonly to: { readonly input: number; readonly output: number };
}

/** Output of a straight-line sensor at `input`. Throws a RangeError where both inputs are the same. */
export function linearOutput(points: TwoPoints, input: number): number {
  return points.from.output + linearSensitivity(points) * (input - points.from.input);
}

/** Output per input of a straight-line sensor: (o1 - o0) / (i1 - i0). */
export function linearSensitivity({ from, to }: TwoPoints): number {
  if (from.input === to.input)
    throw new RangeError(`Unexpected second input ${to.input}, expected one other than the first`);
  return (to.output - from.output) / (to.input - from.input);
}

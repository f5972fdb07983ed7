// Cylinders and accumulators as far as lift rate and float need them. SI: m, m3, m3/s, Pa; pressures are absolute.

import { requireNotNegative, requirePositive } from '../statistics/require.js';

/** Standard atmosphere in Pa (ISO 2533:1975): what a gauge leaves out. */
export const STANDARD_ATMOSPHERE = 101325;

/** Absolute pressure from a gauge reading, by the standard atmosphere unless another is given. */
export function absolutePressure(gauge: number, atmosphere = STANDARD_ATMOSPHERE): number {
  return requireNotNegative(gauge + atmosphere, 'absolute pressure');
}

/** Cylinders that share a flow. `rod` is 0 for the side without a rod. */
export interface Cylinders {
  readonly count: number;
  readonly bore: number;
  readonly rod?: number;
}

/** Speed of the rods in m/s: Q / (n pi (bore^2 - rod^2) / 4). */
export function cylinderSpeed(flow: number, { count, bore, rod = 0 }: Cylinders): number {
  const area = (Math.PI * (requirePositive(bore, 'bore') ** 2 - requireNotNegative(rod, 'rod') ** 2)) / 4;
  return (
    requireNotNegative(flow, 'flow') /
    (requirePositive(count, 'number of cylinders') * requirePositive(area, 'piston area'))
  );
}

/** Speed at the cutter: rod speed times (distance pivot to cutter) / (lever arm of the cylinder about the pivot). */
export function tipSpeed(rodSpeed: number, toCutter: number, lever: number): number {
  return (
    (requireNotNegative(rodSpeed, 'rod speed') * requirePositive(toCutter, 'distance to the cutter')) /
    requirePositive(lever, 'lever arm')
  );
}

/** A gas-charged accumulator: its volume at the precharge, and the pressures it works between. */
export interface Accumulator {
  readonly volume: number;
  readonly precharge: number;
  readonly least: number;
  readonly most: number;
}

/**
 * Gas volumes at the least and the greatest pressure and the fluid between: V = V0 (p0 / p)^(1/n). n = 1 is isothermal
 * (slow), 1.4 adiabatic for nitrogen below some 200 bar (fast). Pressures absolute: gauge pressures err, more at low ones.
 * Domain: 0 < precharge <= least <= most, n >= 1.
 */
export function accumulatorVolumes(
  accumulator: Accumulator,
  exponent = 1,
): { readonly atLeast: number; readonly atMost: number; readonly usable: number } {
  const { volume, precharge, least, most } = accumulator;
  if (!(precharge > 0 && precharge <= least && least <= most && exponent >= 1)) {
    throw new RangeError(
      `Unexpected pressures ${precharge}, ${least}, ${most} Pa or exponent ${exponent}, expected 0 < precharge <= least <= most`,
    );
  }
  const at = (pressure: number) => requirePositive(volume, 'volume') * (precharge / pressure) ** (1 / exponent);
  return { atLeast: at(least), atMost: at(most), usable: at(least) - at(most) };
}

/**
 * Least and greatest pressure over the precharge, both absolute. Makers' sizing notes ask for at least 1.1 at the least
 * pressure, so that the bladder does not beat on its valve, and for a bladder at most 4 at the greatest.
 */
export function prechargeRatios({ precharge, least, most }: Accumulator): {
  readonly atLeast: number;
  readonly atMost: number;
} {
  const base = requirePositive(precharge, 'precharge');
  return {
    atLeast: requirePositive(least, 'least pressure') / base,
    atMost: requirePositive(most, 'greatest pressure') / base,
  };
}

/** Whether an accumulator keeps to both guides of `prechargeRatios`. */
export function keepsPrechargeGuides(accumulator: Accumulator): boolean {
  const { atLeast, atMost } = prechargeRatios(accumulator);
  return atLeast >= 1.1 && atMost <= 4;
}

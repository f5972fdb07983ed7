// Voltage dividers and potentiometers, and what the input that reads them takes away.

import { requireNotNegative, requirePositive, requireShare } from '../statistics/require.js';

/** Output in V of a divider: Vs R2 / (R1 + R2), R2 being the one that is measured across. Ohm, 0 or more, not both 0. */
export function dividerOutput(supply: number, upper: number, lower: number): number {
  const whole = requireNotNegative(upper, 'upper resistance') + requireNotNegative(lower, 'lower resistance');
  return (supply * lower) / requirePositive(whole, 'whole resistance');
}

/** A potentiometer and the input that reads it; both in ohm. */
export interface LoadedPotentiometer {
  readonly resistance: number;
  readonly load: number;
}

/**
 * Share of the supply that a loaded potentiometer gives at wiper position x (0 to 1): x / (1 + x (1 - x) Rp / RL).
 * From the divider with the load beside the lower part.
 */
export function loadedShare(position: number, { resistance, load }: LoadedPotentiometer): number {
  const x = requireShare(position, 'wiper position');
  return x / (1 + x * (1 - x) * (requirePositive(resistance, 'resistance') / requirePositive(load, 'load')));
}

/** Loaded share less the unloaded one, at a position: never above 0, and 0 at both ends. */
export function loadingError(position: number, potentiometer: LoadedPotentiometer): number {
  return loadedShare(position, potentiometer) - position;
}

/**
 * The position where loading errs most, and by how much (a share of the supply, not above 0). With a = Rp/RL the slope of
 * the error is 0 where (1 + a x^2) = (1 + a x (1 - x))^2; found by halving between 1/2 and 1. For a light load the place
 * is near 2/3 and the error near -4 a / 27.
 */
export function worstLoading(potentiometer: LoadedPotentiometer): {
  readonly position: number;
  readonly error: number;
} {
  const a = requirePositive(potentiometer.resistance, 'resistance') / requirePositive(potentiometer.load, 'load');
  let low = 0.5;
  let high = 1;
  for (let round = 0; round < 60; round += 1) {
    const x = (low + high) / 2;
    if ((1 + a * x * (1 - x)) ** 2 > 1 + a * x * x) low = x;
    else high = x;
  }
  return { position: low, error: loadingError(low, potentiometer) };
}

// How fast a machine may drive so that its header can follow the ground: lift and lower rate, delay, waves of the terrain.
// Speeds in m/s, lengths in m, times in s, slopes as rise over run. Bounds of kinematics and rules of thumb, no controller.

import { requireNotNegative, requirePositive } from '../statistics/require.js';

/** Rates at the cutter in m/s. */
export interface HeightRates {
  readonly lift: number;
  readonly lower: number;
}

/**
 * Greatest speed at which the cutter keeps up with a slope: v = rate / slope; uphill the lift rate counts, downhill
 * (slope below 0) the lower rate. Infinity on level ground.
 */
export function speedForSlope(rates: HeightRates, slope: number): number {
  if (Number.isNaN(slope)) throw new RangeError('Unexpected slope NaN, expected a number');
  const rate = requireNotNegative(slope > 0 ? rates.lift : rates.lower, 'rate');
  return slope === 0 ? Infinity : rate / Math.abs(slope);
}

/** Distance driven during a delay: v T. */
export function distanceInDelay(speed: number, delay: number): number {
  return requireNotNegative(speed, 'speed') * requireNotNegative(delay, 'delay');
}

/** Height error that a delay alone makes on a slope: v T |slope|. */
export function delayError(speed: number, delay: number, slope: number): number {
  return distanceInDelay(speed, delay) * Math.abs(slope);
}

/** Phase lag of a delay at a frequency, in rad: 2 pi f T. */
export function delayPhase(frequency: number, delay: number): number {
  return 2 * Math.PI * requireNotNegative(frequency, 'frequency') * requireNotNegative(delay, 'delay');
}

/**
 * Greatest crossover frequency of a feedback loop with a delay, in rad/s: 1 / T. A rule of thumb, not a law
 * (S. Skogestad, I. Postlethwaite, Multivariable Feedback Control, 2nd ed., ch. 5, from memory).
 */
export function crossoverBound(delay: number): number {
  return 1 / requirePositive(delay, 'delay');
}

/** Ground that rises and falls as a sine wave: amplitude from the middle, and length from crest to crest. */
export interface TerrainWave {
  readonly amplitude: number;
  readonly wavelength: number;
}

/** Steepest slope of a wave: 2 pi A / wavelength. */
export function steepestSlope({ amplitude, wavelength }: TerrainWave): number {
  return (2 * Math.PI * requireNotNegative(amplitude, 'amplitude')) / requirePositive(wavelength, 'wavelength');
}

/** What a header can do, and how far off it may be. */
export interface FollowingLimits {
  readonly rates: HeightRates;
  /** From a change of the ground to a change of the height, in s. */
  readonly delay: number;
  /** Greatest height error allowed, in m. */
  readonly tolerance: number;
}

/** The bound that holds the speed down. */
export interface FollowingSpeed {
  readonly speed: number;
  readonly because: 'lift-rate' | 'lower-rate' | 'delay' | 'none';
}

/**
 * Greatest speed at which the height follows a wave: the least of rate / steepest slope, for lift and lower, and the speed
 * at which the delay alone makes the error 2 A sin(pi v T / wavelength) reach the tolerance (the wave less itself, late by
 * T). Waves no higher than the tolerance are no bound. Neither bound knows the controller, so the true limit is lower.
 */
export function followingSpeed(limits: FollowingLimits, wave: TerrainWave): FollowingSpeed {
  const slope = steepestSlope(wave);
  const { amplitude, wavelength } = wave;
  const tolerance = requireNotNegative(limits.tolerance, 'tolerance');
  if (amplitude <= tolerance) return { speed: Infinity, because: 'none' };
  const share = tolerance / (2 * amplitude);
  const late =
    requireNotNegative(limits.delay, 'delay') === 0
      ? Infinity
      : (wavelength / (Math.PI * limits.delay)) * Math.asin(share);
  const bounds: readonly FollowingSpeed[] = [
    { speed: speedForSlope(limits.rates, slope), because: 'lift-rate' },
    { speed: speedForSlope(limits.rates, -slope), because: 'lower-rate' },
    { speed: late, because: 'delay' },
  ];
  return bounds.reduce((least, bound) => (bound.speed < least.speed ? bound : least));
}

// Moisture: shrink by water, dry bushels, and the flat rules of the trade, which are something else. Moistures are wet-base
// shares of mass (0.155 for 15.5 %).

import { requireNotNegative, requirePositive } from '../statistics/require.js';

function requireMoisture(moisture: number): number {
  if (!(moisture >= 0 && moisture < 1))
    throw new RangeError(`Unexpected moisture ${moisture}, expected a share from 0 to below 1`);
  return moisture;
}

/**
 * What is left of a mass when its moisture changes, dry matter staying the same: (1 - from) / (1 - to). Above 1 where it
 * takes up water.
 */
export function massRatio(from: number, to: number): number {
  return (1 - requireMoisture(from)) / (1 - requireMoisture(to));
}

/** Share of the mass that drying takes: 1 - (1 - from) / (1 - to). `waterShrink(0.25, 0.155)` is 0.1124. */
export function waterShrink(from: number, to: number): number {
  return (requireMoisture(from) - requireMoisture(to)) / (1 - to);
}

/** Mass share lost per point (0.01) of moisture taken, down to `to`: 0.01 / (1 - to). The same from any moisture. */
export function shrinkPerPoint(to: number): number {
  return 0.01 / (1 - requireMoisture(to));
}

/**
 * What is left by a flat rule: 1 - perPoint * points - handling, points being (from - to) / 0.01. A trade term, not dry
 * matter: label it where it is used. Not below 0; from below `to` nothing is taken but handling.
 */
export function flatRatio(
  from: number,
  to: number,
  rule: { readonly perPoint: number; readonly handling?: number },
): number {
  const points = Math.max(0, requireMoisture(from) - requireMoisture(to)) / 0.01;
  return Math.max(
    0,
    1 -
      requireNotNegative(rule.perPoint, 'shrink per point') * points -
      requireNotNegative(rule.handling ?? 0, 'handling loss'),
  );
}

/** A crop's legal bushel: its mass, and the moisture that it is meant at. */
export interface Bushel {
  readonly mass: number;
  readonly moisture: number;
}

/** Dry matter and water in a legal bushel, in the unit of its mass. */
export function bushelParts({ mass, moisture }: Bushel): { readonly dry: number; readonly water: number } {
  const dry = requirePositive(mass, 'bushel mass') * (1 - requireMoisture(moisture));
  return { dry, water: mass - dry };
}

/** Mass that holds the dry matter of one legal bushel, at another moisture: mass (1 - base) / (1 - moisture). */
export function bushelMassAt(bushel: Bushel, moisture: number): number {
  return bushelParts(bushel).dry / (1 - requireMoisture(moisture));
}

/** Bushels at the legal moisture in a mass at a moisture: mass (1 - moisture) / dry matter of one. */
export function dryBushels(mass: number, moisture: number, bushel: Bushel): number {
  return (requireNotNegative(mass, 'mass') * (1 - requireMoisture(moisture))) / bushelParts(bushel).dry;
}

/** Trade bushels of a mass as it is, moisture left alone: mass / legal mass. */
export function tradeBushels(mass: number, bushel: Bushel): number {
  return requireNotNegative(mass, 'mass') / requirePositive(bushel.mass, 'bushel mass');
}

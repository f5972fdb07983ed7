// Losses from counts on the ground. A unit of crop is whatever the seeds per unit are of: a bushel, a kilogram, a
// hundredweight. Areas in m2, losses in units per m2.

import { requireNotNegative, requirePositive } from '../statistics/require.js';

/** Seeds per m2 that are one unit of loss per area: seeds per unit / area. For 1 bu/ac: seeds per bushel / 4046.86 m2. */
export function seedsPerLoss(seedsPerUnit: number, area: number): number {
  return requirePositive(seedsPerUnit, 'seeds per unit') / requirePositive(area, 'area');
}

/** Loss in units per m2 of a count in a frame: count / (frame area seeds per unit). */
export function lossFromCount(count: number, frameArea: number, seedsPerUnit: number): number {
  return (
    requireNotNegative(count, 'count') /
    (requirePositive(frameArea, 'frame area') * requirePositive(seedsPerUnit, 'seeds per unit'))
  );
}

/** How much denser seeds lie behind a machine that spreads over less than it cuts: cut width / spread width. */
export function concentrationFactor(cutWidth: number, spreadWidth: number): number {
  return requirePositive(cutWidth, 'cut width') / requirePositive(spreadWidth, 'spread width');
}

/** Counts, all per one and the same frame. Before: in the standing crop; header: between header and separator's spread; behind: in the spread. */
export interface LossCounts {
  readonly before: number;
  readonly header: number;
  readonly behind: number;
}

/** Losses, in units per m2 of field; `total` leaves out what lay there before. */
export interface LossShares {
  readonly before: number;
  readonly header: number;
  readonly separator: number;
  readonly total: number;
}

/**
 * Splits counts into losses: header = header count - before; separator = (behind - header count) / concentration factor,
 * since what fell before and at the header lies evenly. Neither below 0: counts scatter.
 */
export function splitLosses(
  counts: LossCounts,
  frame: { readonly area: number; readonly seedsPerUnit: number },
  concentration: number,
): LossShares {
  const loss = (count: number) => lossFromCount(count, frame.area, frame.seedsPerUnit);
  const before = loss(counts.before);
  const header = Math.max(0, loss(counts.header) - before);
  const separator =
    Math.max(0, loss(counts.behind) - loss(counts.header)) / requirePositive(concentration, 'concentration factor');
  return { before, header, separator, total: header + separator };
}

/** Loss from ears found: ears times their mass over the area, in the unit of the mass per m2. */
export function lossFromEars(ears: number, massPerEar: number, area: number): number {
  return (
    (requireNotNegative(ears, 'ears') * requireNotNegative(massPerEar, 'mass per ear')) / requirePositive(area, 'area')
  );
}

/** Whether a printed number agrees with a computed one to within a share of the latter: what unmasks a table's slip. */
export function agreesWithin(printed: number, computed: number, share: number): boolean {
  return Math.abs(printed - computed) <= requireNotNegative(share, 'share') * Math.abs(computed);
}

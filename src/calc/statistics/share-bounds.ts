// How sure a counted share is: bounds that hold whatever the readings are distributed like.

import { requireShare } from './require.js';

/** A share that was counted, and the bounds between which the true one lies. All from 0 to 1. */
export interface ShareBounds {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * `count` of `of` and the bounds of the true share at a two-sided `level` (C. J. Clopper, E. S. Pearson, Biometrika 26,
 * 1934): the shares for which so many or more, and so many or fewer, come about by chance with (1 - level) / 2. Never
 * narrower than the level says. Throws a RangeError for anything but 0 <= count <= of, whole, of >= 1. Absolute error
 * below 1e-12. `shareBounds(0, 10, 0.95)` is 0 to 0.308.
 */
export function shareBounds(count: number, of: number, level: number): ShareBounds {
  if (!Number.isInteger(count) || !Number.isInteger(of) || of < 1 || count < 0 || count > of) {
    throw new RangeError(`Unexpected ${count} of ${of}, expected a part of one or more`);
  }
  const tail = (1 - requireShare(level, 'level')) / 2;
  return {
    share: count / of,
    low: count === 0 ? 0 : solve((share) => orMore(count, of, share) <= tail),
    high: count === of ? 1 : solve((share) => 1 - orMore(count + 1, of, share) > tail),
  };
}

/** Where a condition that holds for small shares stops to hold. */
function solve(holds: (share: number) => boolean): number {
  let [low, high] = [0, 1];
  for (let round = 0; round < 60; round += 1) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The chance of `least` or more of `of` where each has the chance `share`: the binomial sum, term by term. */
function orMore(least: number, of: number, share: number): number {
  let log = of * Math.log1p(-share);
  let below = 0;
  for (let k = 0; k < least; k += 1) {
    below += Math.exp(log);
    log += Math.log((of - k) / (k + 1)) + Math.log(share) - Math.log1p(-share);
  }
  return 1 - below;
}

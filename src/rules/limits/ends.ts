// Limits held against a band: only the ends that there are count, so that `at least 2.5 V` reaches nowhere it does not say.

import { holdsWithin, type Limits } from '../../calc/limits.js';

/** Whether every end that the limits have lies in the band. */
export function endsWithin(limits: Limits, band: Limits): boolean {
  return [limits.low, limits.high].every((end) => end === undefined || holdsWithin(band, end));
}

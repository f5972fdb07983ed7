// Whether readings look like those of a normal distribution: what has to be asked before a capability index is named.

import { normalShare } from './normal.js';
import { summarise } from './summary.js';

/** Fewer readings than these say nothing about their distribution. */
export const fewestForNormality = 8;

/** The statistic that is beyond what chance gives in one of twenty normal samples. */
const critical = 0.752;

/** What the test of Anderson and Darling found. */
export interface Normality {
  /** A squared, corrected for the number of readings. */
  readonly statistic: number;
  /** Not rejected at 5 %. */
  readonly looksNormal: boolean;
}

/**
 * The Anderson-Darling test for a normal distribution whose mean and deviation are estimated from the readings: A^2 = -n -
 * sum (2i - 1) (ln F(x_i) + ln (1 - F(x_(n+1-i)))) / n over the readings in order (NIST e-Handbook of Statistical Methods,
 * 1.3.5.14), times 1 + 0.75/n + 2.25/n^2 and compared with 0.752 (M. A. Stephens in R. B. D'Agostino, M. A. Stephens,
 * Goodness-of-Fit Techniques, 1986, table 4.7, case 3). Undefined for fewer than eight readings or where all are equal.
 * Readings rounded coarsely against their scatter are rejected: nothing is then claimed that rests on normality.
 */
export function testNormality(readings: readonly number[]): Normality | undefined {
  const summary = summarise(readings);
  if (!summary || readings.length < fewestForNormality || !summary.standardDeviation) return undefined;
  const { mean, standardDeviation: s, count: n } = summary;
  const z = [...readings].sort((a, b) => a - b).map((x) => (x - mean) / s);
  const sum = z.reduce((total, own, i) => total + (2 * i + 1) * (logShare(own) + logShare(-(z[n - 1 - i] ?? 0))), 0);
  const statistic = (-n - sum / n) * (1 + 0.75 / n + 2.25 / (n * n));
  return { statistic, looksNormal: statistic <= critical };
}

// beyond the smallest float a reading is as unlikely as can be told
function logShare(z: number): number {
  return Math.log(Math.max(normalShare(z), Number.MIN_VALUE));
}

// Which of several positive numbers lies far off the others, by factors: median and MAD of their logarithms.

/** A number far off, and by which factor it lies above (or, below 1, under) the middle of all. */
export interface Outlier {
  readonly index: number;
  readonly factor: number;
}

/** Fewer siblings than these say nothing of each other. */
export const leastSiblings = 4;

/** The modified score beyond which Iglewicz and Hoaglin (1993) call a number an outlier. */
const mostScore = 3.5;

/** MAD / 0.6745 estimates the standard deviation of a normal distribution. */
const madToDeviation = 0.6745;

/**
 * Indexes of outliers among `numbers`, all above zero; none below four. `alike` is a factor within which numbers
 * count as alike, so that siblings that agree to a hair do not make an outlier of the first that does not.
 */
export function outliersAmong(numbers: readonly number[], alike: number): readonly Outlier[] {
  if (numbers.length < leastSiblings || numbers.some((one) => !(one > 0))) return [];
  const logarithms = numbers.map((one) => Math.log(one));
  const middle = median(logarithms);
  const spread = Math.max(median(logarithms.map((one) => Math.abs(one - middle))), Math.log(alike));
  return logarithms.flatMap((one, index) => {
    const score = (madToDeviation * (one - middle)) / spread;
    return Math.abs(score) > mostScore ? [{ index, factor: Math.exp(one - middle) }] : [];
  });
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? 0)) / 2;
}

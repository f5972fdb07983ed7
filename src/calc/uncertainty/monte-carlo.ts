// Propagation of distributions by Monte Carlo (JCGM 101:2008): the slow second method beside first-order combination.

import { summarise } from '../statistics/summary.js';
import { createRandom, type RandomSource } from './random.js';

/** What is known of one input. `mean` and sizes in the input's unit. */
export type Distribution =
  | { readonly kind: 'normal'; readonly mean: number; readonly uncertainty: number }
  | { readonly kind: 'student'; readonly mean: number; readonly uncertainty: number; readonly degrees: number }
  | { readonly kind: 'rectangular' | 'triangular' | 'arcsine'; readonly low: number; readonly high: number };

/** How the trials are made. The same seed gives the same result. */
export interface Trials {
  readonly seed: number;
  readonly count: number;
  /** The share that the coverage interval holds, e.g. 0.95. */
  readonly level: number;
  /** Correlation matrix of the inputs; only for inputs that are all normal. */
  readonly correlations?: readonly (readonly number[])[];
}

/** The distribution of the result. */
export interface Simulated {
  readonly mean: number;
  readonly uncertainty: number;
  /** With equal shares left out on both sides (JCGM 101:2008, 7.7.1). */
  readonly symmetric: readonly [number, number];
  /** The shortest one (7.7.1, note 3; 5.3.4). */
  readonly shortest: readonly [number, number];
}

/**
 * Draws `count` sets of inputs and puts them through the model. Throws a RangeError for fewer than 100 trials, a level
 * outside 0 to 1, correlations with inputs that are not normal, or a model that gives no finite number.
 * Statistical error of u: about u / sqrt(2 count).
 */
export function simulate(
  model: (inputs: readonly number[]) => number,
  inputs: readonly Distribution[],
  trials: Trials,
): Simulated {
  const { seed, count, level, correlations } = trials;
  if (!(count >= 100) || !Number.isInteger(count))
    throw new RangeError(`Unexpected ${count} trials, expected at least 100`);
  if (!(level > 0 && level < 1)) throw new RangeError(`Unexpected level ${level}, expected one between 0 and 1`);
  const random = createRandom(seed);
  const draw =
    correlations === undefined
      ? () => inputs.map((input) => drawFrom(input, random))
      : drawTied(inputs, correlations, random);
  const results: number[] = [];
  for (let i = 0; i < count; i += 1) results.push(model(draw()));
  const summary = summarise(results)!;
  results.sort((a, b) => a - b);
  const inside = Math.min(Math.floor(level * count + 0.5), count - 1);
  const start = Math.floor((count - inside) / 2);
  return {
    mean: summary.mean,
    uncertainty: summary.standardDeviation!,
    symmetric: [results[start]!, results[Math.min(start + inside, count - 1)]!],
    shortest: shortestInterval(results, inside),
  };
}

function shortestInterval(sorted: readonly number[], inside: number): readonly [number, number] {
  let best: readonly [number, number] = [sorted[0]!, sorted[inside]!];
  for (let i = 1; i + inside < sorted.length; i += 1) {
    if (sorted[i + inside]! - sorted[i]! < best[1] - best[0]) best = [sorted[i]!, sorted[i + inside]!];
  }
  return best;
}

/** One value of a distribution (JCGM 101:2008, 6.4). */
function drawFrom(input: Distribution, random: RandomSource): number {
  switch (input.kind) {
    case 'normal':
      return input.mean + input.uncertainty * random.normal();
    case 'student':
      return input.mean + input.uncertainty * drawStudent(input.degrees, random);
    case 'rectangular':
      return input.low + (input.high - input.low) * random.uniform();
    case 'triangular':
      return input.low + ((input.high - input.low) / 2) * (random.uniform() + random.uniform());
    case 'arcsine':
      return (input.low + input.high) / 2 + ((input.high - input.low) / 2) * Math.sin(2 * Math.PI * random.uniform());
  }
}

/** Student's t: a normal number over the root of a mean of squares of as many others (JCGM 101:2008, 6.4.9.5). */
function drawStudent(degrees: number, random: RandomSource): number {
  const whole = Math.max(1, Math.round(degrees));
  let squares = 0;
  for (let i = 0; i < whole; i += 1) squares += random.normal() ** 2;
  return random.normal() / Math.sqrt(squares / whole);
}

/** Draws from a joint normal distribution by the Cholesky factor of its covariance (JCGM 101:2008, C.5). */
function drawTied(
  inputs: readonly Distribution[],
  correlations: readonly (readonly number[])[],
  random: RandomSource,
): () => number[] {
  const normals = inputs.map((input) => {
    if (input.kind !== 'normal')
      throw new RangeError(`Unexpected ${input.kind} input among correlated ones, expected normal`);
    return input;
  });
  const factor = choleskyFactor(correlations, inputs.length);
  return () => {
    const independent = normals.map(() => random.normal());
    return normals.map((input, i) => {
      const mixed = factor[i]!.reduce((sum, entry, j) => sum + entry * independent[j]!, 0);
      return input.mean + input.uncertainty * mixed;
    });
  };
}

/** The lower triangle L with L L' = m; rows that depend on earlier ones get a zero on the diagonal. */
function choleskyFactor(m: readonly (readonly number[])[], size: number): number[][] {
  if (m.length !== size || m.some((row) => row.length !== size))
    throw new RangeError(`Unexpected correlations, expected ${size} rows of ${size}`);
  const factor: number[][] = [];
  for (let i = 0; i < size; i += 1) {
    const row: number[] = [];
    for (let j = 0; j < i; j += 1) {
      const rest = row.reduce((left, entry, k) => left - entry * factor[j]![k]!, m[i]![j]!);
      const pivot = factor[j]![j]!;
      row.push(pivot === 0 ? 0 : rest / pivot);
    }
    const square = row.reduce((left, entry) => left - entry * entry, m[i]![i]!);
    if (square < -1e-9) throw new RangeError('Unexpected correlations that contradict each other');
    factor.push([...row, square > 1e-14 ? Math.sqrt(square) : 0, ...Array<number>(size - i - 1).fill(0)]);
  }
  return factor;
}

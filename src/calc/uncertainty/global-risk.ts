// Risks over many units, where records say how the quantity is spread (JCGM 106:2012, 9.4): how often a bad one is
// passed, a good one failed.

import { normalDensity, normalShare } from '../statistics/normal.js';
import type { Bounds } from './decisions.js';

/** What is known: the spread of the quantity over units, and the standard uncertainty of one reading. Both normal. */
export interface Spread {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly uncertainty: number;
}

/** Shares of all units that are decided wrongly, 0 to 1. */
export interface GlobalRisk {
  /** Share of all units that are outside the tolerance and pass (the consumer's risk). */
  readonly falseAccept: number;
  /** Share of all units that are inside and fail (the producer's risk). */
  readonly falseReject: number;
}

/**
 * R_C = integral over the outside of the tolerance of g(x) (Phi((AH - x)/u) - Phi((AL - x)/u)) dx, R_P likewise over the
 * inside with 1 minus it; g is the density of the spread (JCGM 106:2012, eq. 17-19). By Gauss-Legendre sums over short
 * pieces; absolute error below 1e-10. Throws a RangeError for a spread or uncertainty that is not above 0.
 */
export function globalRisk(tolerance: Bounds, acceptance: Bounds, spread: Spread): GlobalRisk {
  const { mean, standardDeviation: s, uncertainty: u } = spread;
  if (!(s > 0) || !(u > 0)) throw new RangeError(`Unexpected spread ${s} and uncertainty ${u}, expected both above 0`);
  const passes = (x: number) => acceptedShare(acceptance, x, u);
  const density = (x: number) => normalDensity((x - mean) / s) / s;
  const edges = [tolerance.low ?? -Infinity, tolerance.high ?? Infinity];
  // Nine standard deviations leave out less than 1e-18.
  const least = mean - 9 * s;
  const most = mean + 9 * s;
  const [low, high] = edges.map((edge) => Math.min(Math.max(edge, least), most)) as [number, number];
  const steps: Steps = {
    edges: [acceptance.low, acceptance.high].filter((edge) => edge !== undefined),
    fine: u,
    coarse: s,
  };
  const bad = (x: number) => density(x) * passes(x);
  return {
    falseAccept: integrate(bad, [least, low], steps) + integrate(bad, [high, most], steps),
    falseReject: integrate((x) => density(x) * (1 - passes(x)), [low, high], steps),
  };
}

/** Where the integrand turns quickly, and how quickly there and elsewhere. */
interface Steps {
  readonly edges: readonly number[];
  readonly fine: number;
  readonly coarse: number;
}

function acceptedShare(acceptance: Bounds, x: number, u: number): number {
  const { low = -Infinity, high = Infinity } = acceptance;
  return low > high ? 0 : normalShare((high - x) / u) - normalShare((low - x) / u);
}

// Five-point Gauss-Legendre nodes and weights (Abramowitz, Stegun, table 25.4).
const NODES: readonly (readonly [number, number])[] = [
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
];

/** Pieces of half of `fine` within nine of it from an edge, of half of `coarse` elsewhere. */
function integrate(f: (x: number) => number, range: readonly [number, number], steps: Steps): number {
  const [from, to] = range;
  if (!(to > from)) return 0;
  const near = steps.edges.flatMap((edge) => [edge - 9 * steps.fine, edge + 9 * steps.fine]);
  const breaks = [from, ...near.filter((x) => x > from && x < to).sort((a, b) => a - b), to];
  let sum = 0;
  for (let i = 1; i < breaks.length; i += 1) {
    const middle = (breaks[i - 1]! + breaks[i]!) / 2;
    const isFine = steps.edges.some((edge) => Math.abs(middle - edge) < 9 * steps.fine);
    const piece = (isFine ? Math.min(steps.fine, steps.coarse) : steps.coarse) / 2;
    sum += gaussSum(f, [breaks[i - 1]!, breaks[i]!], piece);
  }
  return sum;
}

function gaussSum(f: (x: number) => number, [from, to]: readonly [number, number], piece: number): number {
  const count = Math.max(1, Math.ceil((to - from) / piece));
  const half = (to - from) / count / 2;
  let sum = 0;
  for (let i = 0; i < count; i += 1) {
    const middle = from + (2 * i + 1) * half;
    for (const [node, weight] of NODES) sum += weight * f(middle + node * half);
  }
  return sum * half;
}

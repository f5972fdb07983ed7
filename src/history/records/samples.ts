// What some readings of one value say together, and how well they keep the limits. Nothing is claimed of fewer readings than
// stated here.

import { actualBounds, capability, potentialBounds } from '../../calc/statistics/capability.js';
import { testNormality } from '../../calc/statistics/normality.js';
import { shareBounds } from '../../calc/statistics/share-bounds.js';
import { summarise } from '../../calc/statistics/summary.js';
import type { ReadingVerdict } from '../../model/job-record.js';
import type { Keeping, KeepingSample, ReportLimits, Sample } from '../../model/records-report.js';

/**
 * Bounds are two-sided at this level. A share is claimed from 10 readings on, below which its bounds say next to nothing (0
 * of 9 outside may be a third); indices from 30 on: common practice, no source.
 */
export const claims = { level: 0.95, shareFrom: 10, indicesFrom: 30, nearFrom: 5, nearWithin: 0.1 } as const;

/** A reading in the unit of the limits, with how its page judged it. */
export interface SampledReading {
  readonly number: number;
  readonly verdict: ReadingVerdict;
}

/** Counts and, of those that are no faults, the smallest, the largest, the mean and the scatter. */
export function sampleOf(readings: readonly SampledReading[]): Sample {
  const summary = summarise(measured(readings));
  const counted = (wanted: ReadingVerdict): number => readings.filter(({ verdict }) => verdict === wanted).length;
  return {
    count: readings.length,
    pass: counted('pass'),
    fail: counted('fail'),
    unsure: counted('unsure'),
    fault: counted('fault'),
    recorded: counted('recorded'),
    ...(summary && { min: summary.min, max: summary.max, mean: summary.mean }),
    ...(summary?.standardDeviation !== undefined && { standardDeviation: summary.standardDeviation }),
  };
}

/** The same with how well they keep the limits. */
export function keepingSample(readings: readonly SampledReading[], limits: ReportLimits | undefined): KeepingSample {
  return { ...sampleOf(readings), keeping: keepingOf(readings, limits) };
}

// outside the band in which a sensor reads at all nothing was measured
function measured(readings: readonly SampledReading[]): readonly number[] {
  return readings.filter(({ verdict }) => verdict !== 'fault').map(({ number }) => number);
}

function keepingOf(readings: readonly SampledReading[], limits: ReportLimits | undefined): Keeping {
  if (!limits) return { kind: 'not-claimed', why: 'no-limits' };
  if (readings.length < claims.shareFrom) return { kind: 'not-claimed', why: 'too-few' };
  const numbers = measured(readings);
  const share = (why: (Keeping & { kind: 'share' })['why']): Keeping => shareOutside(readings, limits, why);
  if (readings.length < claims.indicesFrom) return share('few');
  if (numbers.length < readings.length) return share('faults');
  const summary = summarise(numbers);
  if (!summary?.standardDeviation) return share('no-scatter');
  const normality = testNormality(numbers);
  if (!normality?.looksNormal) return share('not-normal');
  const { mean, standardDeviation, count } = summary;
  const found = capability({ mean, standardDeviation }, limits);
  const actual = found && actualBounds(found.actual, count, claims.level);
  if (!found || !actual) throw new Error('Limits and scatter without an index');
  const potential = found.potential !== undefined && potentialBounds(found.potential, count, claims.level);
  return {
    kind: 'indices',
    ...(potential && found.potential !== undefined && { cp: { value: found.potential, ...potential } }),
    cpk: { value: found.actual, ...actual },
    normality: normality.statistic,
  };
}

function shareOutside(
  readings: readonly SampledReading[],
  limits: ReportLimits,
  why: (Keeping & { kind: 'share' })['why'],
): Keeping {
  const outside = readings.filter((reading) => isOutside(reading, limits)).length;
  const { share, low, high } = shareBounds(outside, readings.length, claims.level);
  return { kind: 'share', why, outside, share: { value: share, low, high } };
}

/** Limits are closed; a fault is outside whatever it says. */
function isOutside({ number, verdict }: SampledReading, { low, high }: ReportLimits): boolean {
  return verdict === 'fault' || (low !== undefined && number < low) || (high !== undefined && number > high);
}

/** By which of two limits all of enough readings lie, within a tenth of the width or beyond it. */
export function nearSide(
  readings: readonly SampledReading[],
  limits: ReportLimits | undefined,
): 'low' | 'high' | undefined {
  const { low, high } = limits ?? {};
  const numbers = measured(readings);
  if (low === undefined || high === undefined || numbers.length < claims.nearFrom) return undefined;
  const room = (high - low) * claims.nearWithin;
  if (numbers.every((number) => number <= low + room)) return 'low';
  return numbers.every((number) => number >= high - room) ? 'high' : undefined;
}

// What was found and left of each value: against the limits in use, and by unit.

import type { ReportLimits, ValueReport } from '../../model/records-report.js';
import { compareText } from '../../text/compare-text.js';
import { type CountedReading, gatherReadings, isSameLimits, numberIn, type ValueReadings } from './found-readings.js';
import type { KeptJob } from './kept-job.js';
import { keepingSample, nearSide, type SampledReading, sampleOf } from './samples.js';

/** One report for each value of each version of a page, by procedure, rig and the order of reading. */
export function reportValues(jobs: readonly KeptJob[], language: string): readonly ValueReport[] {
  return gatherReadings(jobs).map((group) => reportValue(group, language));
}

function reportValue(group: ValueReadings, language: string): ValueReport {
  const { procedure, value, found, left } = group;
  const all = [...new Map([...found, ...left].map((one) => [keyOf(one), one])).values()];
  const newest = newestOf(all);
  const worded = all.findLast(({ job }) => job.record.page.language === language) ?? newest;
  const { unit } = newest.number;
  const sampled = (list: readonly CountedReading[]): readonly SampledReading[] =>
    list.map(({ reading, number }) => ({ number: numberIn(number.base, unit), verdict: reading.verdict }));
  const limits = limitsOf(newest);
  const near = nearOf(sampled(found), sampled(left), limits);
  return {
    procedure,
    title: worded.job.record.page.title,
    value,
    label: worded.reading.label,
    rig: newest.job.rig,
    unit: newest.reading.unit,
    decimals: decimalsOf(all),
    ...(limits && { limits }),
    otherLimits: all.filter(({ number }) => !isSameLimits(number, newest.number)).length,
    asFound: keepingSample(sampled(found), limits),
    asLeft: keepingSample(sampled(left), limits),
    units: unitsOf(all).map((one) => {
      const own = (list: readonly CountedReading[]): readonly SampledReading[] =>
        sampled(list.filter(({ job }) => job.unit === one));
      return { ...(one !== undefined && { unit: one }), asFound: sampleOf(own(found)), asLeft: sampleOf(own(left)) };
    }),
    ...(near && { near }),
  };
}

function keyOf({ job, reading }: CountedReading): string {
  return `${job.record.id} ${reading.order}`;
}

/** By the newest revision, then the latest; its limits are those in use. */
function newestOf(all: readonly CountedReading[]): CountedReading {
  const newest = all.reduce<CountedReading | undefined>(
    (best, one) => (best && best.reading.revision > one.reading.revision ? best : one),
    undefined,
  );
  if (!newest) throw new Error('A value without a reading');
  return newest;
}

function limitsOf({ reading, number: { unit, low, high } }: CountedReading): ReportLimits | undefined {
  if (!low && !high) return undefined;
  return {
    ...(low && { low: numberIn(low, unit) }),
    ...(high && { high: numberIn(high, unit) }),
    revision: reading.revision,
  };
}

/** Digits behind the point, of the reading that has most; fractions count as thousandths. */
export function decimalsOf(all: readonly CountedReading[]): number {
  return Math.max(
    ...all.map(({ reading: { text } }) => (text.includes('/') ? 3 : (/\.(\d+)/.exec(text)?.[1]?.length ?? 0))),
  );
}

function unitsOf(all: readonly CountedReading[]): readonly (string | undefined)[] {
  const units = [...new Set(all.map(({ job }) => job.unit))];
  return units.sort((a, b) => compareText(a ?? '\uffff', b ?? '\uffff'));
}

function nearOf(
  found: readonly SampledReading[],
  left: readonly SampledReading[],
  limits: ReportLimits | undefined,
): ValueReport['near'] {
  const whenLeft = nearSide(left, limits);
  if (whenLeft) return { when: 'left', side: whenLeft, count: left.length };
  const whenFound = nearSide(found, limits);
  return whenFound && { when: 'found', side: whenFound, count: found.length };
}

// What happened to a value of one unit between two jobs: as left then against as found now.

import type { Drift, DriftEnd } from '../../model/records-report.js';
import { compareText } from '../../text/compare-text.js';
import { type CountedReading, gatherReadings, numberIn } from './found-readings.js';
import { factOf, type KeptJob } from './kept-job.js';
import { decimalsOf } from './value-reports.js';

/** Each pair of jobs that follow one another on one unit, by procedure, value, unit and day. Faults are no numbers to compare. */
export function reportDrift(jobs: readonly KeptJob[]): readonly Drift[] {
  const units = [...new Set(jobs.flatMap(({ unit }) => unit ?? []))].sort(compareText);
  return units.flatMap((unit) =>
    gatherReadings(jobs.filter((job) => job.unit === unit)).flatMap(({ found, left }) =>
      found.flatMap((now): readonly Drift[] => {
        const before = left.findLast(({ job }) => job.record.begun < now.job.record.begun);
        return before && isMeasured(before) && isMeasured(now) ? [driftBetween(unit, before, now)] : [];
      }),
    ),
  );
}

function isMeasured({ reading }: CountedReading): boolean {
  return reading.verdict !== 'fault';
}

function driftBetween(of: string, left: CountedReading, found: CountedReading): Drift {
  const { job, reading, number } = found;
  const { unit, low, high } = number;
  const change = numberIn(number.base, unit) - numberIn(left.number.base, unit);
  const hours = hoursBetween(left.job, job);
  const width = low && high && numberIn(high, unit) - numberIn(low, unit);
  return {
    procedure: job.record.page.procedure,
    value: reading.value,
    label: reading.label,
    rig: job.rig,
    unit: reading.unit,
    of,
    decimals: decimalsOf([left, found]),
    left: endOf(left, found),
    found: endOf(found, found),
    change,
    days: Math.round((Date.parse(job.day) - Date.parse(left.job.day)) / 86_400_000),
    ...(hours !== undefined && { hours }),
    ...(width !== undefined && width > 0 && { share: change / width }),
  };
}

function endOf({ job, reading, number }: CountedReading, { number: { unit } }: CountedReading): DriftEnd {
  return { record: job.record.id, on: job.day, number: numberIn(number.base, unit), verdict: reading.verdict };
}

/** Engine hours between two jobs; undefined where one does not say them, or they run backwards. */
function hoursBetween(before: KeptJob, now: KeptJob): number | undefined {
  const [from, to] = [before, now].map(({ record }) => Number(factOf(record, 'engine-hours')?.replace(',', '.')));
  return from !== undefined && to !== undefined && to >= from ? to - from : undefined;
}

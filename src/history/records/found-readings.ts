// The readings that count, as found and as left, sorted by what was read: one list for each value of a page's version.

import { fromBase, isSameSize } from '../../calc/conversion.js';
import { type Rational, toNumber } from '../../calc/rational.js';
import type { Unit } from '../../calc/unit-type.js';
import type { RecordReading } from '../../model/job-record.js';
import type { ReportRig } from '../../model/records-report.js';
import { compareText } from '../../text/compare-text.js';
import type { KeptJob } from './kept-job.js';
import { type ReadNumber, readingNumber } from './reading-number.js';

/** One reading that counts. */
export interface CountedReading {
  readonly job: KeptJob;
  readonly reading: RecordReading;
  readonly number: ReadNumber;
}

/** What was read of one value on the pages of one version: a reading may be both found and left. */
export interface ValueReadings {
  readonly procedure: string;
  readonly rig: ReportRig;
  readonly value: string;
  readonly found: readonly CountedReading[];
  readonly left: readonly CountedReading[];
}

/**
 * All values that were read, by procedure and rig and, within them, in the order they were first read. Jobs come the oldest
 * first. What an open job leaves is not known yet.
 */
export function gatherReadings(jobs: readonly KeptJob[]): readonly ValueReadings[] {
  const groups = new Map<string, ValueReadings & { found: CountedReading[]; left: CountedReading[] }>();
  for (const job of jobs) {
    const { record, rig } = job;
    for (const { value, asFound, asLeft } of record.values) {
      const found = counted(job, asFound);
      const left = record.state === 'closed' ? counted(job, asLeft) : undefined;
      const one = found ?? left;
      if (!one) continue;
      const { procedure } = record.page;
      const key = JSON.stringify([procedure, rig, value, kindOf(one.number.unit)]);
      const group = groups.get(key) ?? { procedure, rig, value, found: [], left: [] };
      if (found) group.found.push(found);
      if (left) group.left.push(left);
      groups.set(key, group);
    }
  }
  return [...groups.values()].sort(byPage);
}

// a stable sort keeps the order of reading within a page
function byPage(a: ValueReadings, b: ValueReadings): number {
  return (
    compareText(a.procedure, b.procedure) ||
    compareText(a.rig.machine, b.rig.machine) ||
    compareText(a.rig.header, b.rig.header) ||
    compareText(a.rig.version ?? '', b.rig.version ?? '')
  );
}

/** Units of one kind convert into each other without a power of pi. */
function kindOf({ dimension, pi }: Unit): string {
  return JSON.stringify([dimension, pi]);
}

function counted(job: KeptJob, order: number | undefined): CountedReading | undefined {
  const reading = job.record.readings.find((one) => one.order === order);
  const number = reading && readingNumber(reading);
  return reading && number && { job, reading, number };
}

/** A number in a unit; exact where it was read in that unit. */
export function numberIn(base: Rational, unit: Unit): number {
  return toNumber(fromBase(base, unit));
}

/** Whether two sets of limits are the same limits. */
export function isSameLimits(a: ReadNumber, b: ReadNumber): boolean {
  const isSame = (one: Rational | undefined, other: Rational | undefined): boolean =>
    one === other || (one !== undefined && other !== undefined && one.num * other.den === other.num * one.den);
  // in another unit the same limits were rounded once more
  return !isSameSize(a.unit, b.unit) || (isSame(a.low, b.low) && isSame(a.high, b.high));
}

// What records say together: counts by hand, nothing claimed of too few, drift in the order of time.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type KeptJob, keptJob } from '../../../src/history/records/kept-job.js';
import { type ReportInput, reportRecords } from '../../../src/history/records/report.js';
import { claims, keepingSample, nearSide, sampleOf } from '../../../src/history/records/samples.js';
import type { Book } from '../../../src/model/book.js';
import type { JobRecord } from '../../../src/model/job-record.js';
import type { RecordsReport } from '../../../src/model/records-report.js';
import { leave, reading } from '../../client/jobs.js';
import { ground, made, set } from './made.js';

const located = (value: string) => ({ value, at: { file: 'fleet.yaml', start: 0, end: 0 } });
const known = {
  book: { fleet: [{ id: located('unit-17'), serial: located('70-00317') }] } as unknown as Book,
  homes: new Map([['tarn-40/row-12x20/', { machine: 'tarn-40', header: 'row-12x20' }]]),
};

function jobsOf(records: readonly JobRecord[]): readonly KeptJob[] {
  return records.map((record) => keptJob(`${record.id}.json`, record, known));
}

function report(records: readonly JobRecord[], more: Partial<ReportInput> = {}): RecordsReport {
  return reportRecords({
    jobs: jobsOf(records),
    wrongPages: [],
    unused: [],
    calibratedWithinMonths: 12,
    language: 'en',
    ...more,
  });
}

const limits = { low: 3.63, high: 4.17, revision: 3 };
const passing = (numbers: readonly number[]) => numbers.map((number) => ({ number, verdict: 'pass' as const }));

describe('as found and as left', () => {
  it('are counted apart, by value and unit, as their page judged them', () => {
    const { values, jobs } = report([
      made({ id: 1, day: '2026-03-02', page: { unit: 'unit-17' }, acts: set('3.41', '3.92') }),
      made({ id: 2, day: '2026-04-02', page: { unit: 'unit-21' }, acts: [ground('3.80'), leave('2', 'done')] }),
      made({
        id: 3,
        day: '2026-05-02',
        page: { unit: 'unit-17' },
        acts: [ground('34.1', { verdict: 'fault', side: 'high' })],
      }),
    ]);
    expect(jobs).toEqual({ count: 3, open: 0, from: '2026-03-02', to: '2026-05-02' });
    expect(values).toHaveLength(1);
    const [value] = values;
    expect(value).toMatchObject({ value: 'on_ground', unit: 'V', decimals: 2, limits, otherLimits: 0 });
    expect(value?.asFound).toMatchObject({ count: 3, pass: 1, fail: 1, fault: 1, min: 3.41, max: 3.8 });
    expect(value?.asFound.mean).toBeCloseTo(3.605, 12);
    expect(value?.asLeft).toMatchObject({ count: 3, pass: 2, fault: 1, min: 3.8, max: 3.92 });
    expect(value?.units.map(({ unit, asFound }) => [unit, asFound.count])).toEqual([
      ['unit-17', 2],
      ['unit-21', 1],
    ]);
  });

  it('of an open job are found alone', () => {
    const [value] = report([made({ id: 1, day: '2026-03-02', acts: set('3.41', '3.92'), open: true })]).values;
    expect([value?.asFound.count, value?.asLeft.count]).toEqual([1, 0]);
  });

  it('of a slip that was put right count once', () => {
    const acts = [ground('39'), ground('3.9'), leave('2', 'done')];
    const [value] = report([made({ id: 1, day: '2026-03-02', acts })]).values;
    expect(value?.asFound).toMatchObject({ count: 1, min: 3.9, max: 3.9 });
  });

  it('are told apart by rig and by version of the page, not by language', () => {
    const page = (path: string, language = 'en') => ({ path, language });
    const { values } = report([
      made({ id: 1, day: '2026-03-02', acts: [ground('3.8')] }),
      made({
        id: 2,
        day: '2026-03-03',
        page: page('es/tarn-40/row-12x20/learn-height-range/', 'es'),
        acts: [ground('3.9', { label: 'Sensor de altura' })],
      }),
      made({
        id: 3,
        day: '2026-03-04',
        page: page('tarn-40/row-12x20/learn-height-range/with-tilt/'),
        acts: [ground('3.9')],
      }),
    ]);
    expect(values.map(({ rig, label, asFound }) => [rig.header, rig.version, label, asFound.count])).toEqual([
      ['row-12x20', undefined, 'Height sensor, header on the ground', 2],
      ['row-12x20', 'with-tilt', 'Height sensor, header on the ground', 1],
    ]);
  });

  it('are brought to one unit, and held against the newest limits', () => {
    const width = (text: string, unit: string, low: string, high: string, revision: number, id: number) => {
      const acts = [reading('width', text, { unit, low, high })];
      return made({ id, day: `2026-03-0${id}`, page: { revision }, acts });
    };
    const [value] = report([
      width('3 1/2', 'in', '3', '4', 3, 1),
      width('101.6', 'mm', '80', '100', 4, 2),
      width('3.75', 'in', '3', '4', 3, 3),
    ]).values;
    expect(value).toMatchObject({ unit: 'mm', limits: { low: 80, high: 100, revision: 4 }, otherLimits: 0 });
    expect([value?.asFound.min, value?.asFound.max]).toEqual([88.9, 101.6]);
    const [older] = report([width('3', 'in', '3', '4', 3, 1), width('3', 'in', '2', '4', 4, 2)]).values;
    expect(older).toMatchObject({ limits: { low: 2, high: 4, revision: 4 }, otherLimits: 1 });
  });
});

describe('how well limits are kept', () => {
  it('is not claimed of fewer than ten readings', () => {
    const few = passing(Array.from({ length: 9 }, () => 3.9));
    expect(keepingSample(few, limits).keeping).toEqual({ kind: 'not-claimed', why: 'too-few' });
    expect(keepingSample(few, undefined).keeping).toEqual({ kind: 'not-claimed', why: 'no-limits' });
  });

  it('is a share from ten on, a fault and a reading beyond the limit being outside and one on it inside', () => {
    const readings = [
      ...passing([3.63, 4.17, 4.18, ...Array.from({ length: 8 }, () => 3.9)]),
      { number: 0.1, verdict: 'fault' as const },
    ];
    const { keeping } = keepingSample(readings, limits);
    // bounds of 2 of 12: R's binom.test gives 0.02086 and 0.48414 (from memory)
    expect(keeping).toMatchObject({ kind: 'share', why: 'few', outside: 2 });
    expect(keeping.kind === 'share' && [keeping.share.low.toFixed(4), keeping.share.high.toFixed(4)]).toEqual([
      '0.0209',
      '0.4841',
    ]);
  });

  it('is an index from thirty on, where the readings scatter as a normal distribution does and none is a fault', () => {
    const numbers = [-2.1, -1.8, -1.5, -1.3, -1.2, -1, -0.9, -0.8, -0.7, -0.5, -0.4, -0.3, -0.2, -0.1, 0];
    const normal = [...numbers, ...numbers.map((x) => -x)].map((x) => 3.9 + 0.05 * x);
    const found = keepingSample(passing(normal), limits).keeping;
    expect(found.kind).toBe('indices');
    if (found.kind !== 'indices') return;
    const { mean = 0, standardDeviation: s = 0 } = sampleOf(passing(normal));
    expect(found.cp?.value).toBeCloseTo(0.54 / (6 * s), 9);
    expect(found.cpk.value).toBeCloseTo(Math.min(4.17 - mean, mean - 3.63) / (3 * s), 9);
    expect(keepingSample(passing(normal), { low: 3.63, revision: 3 }).keeping).not.toHaveProperty('cp');
    const skewed = passing(normal.map((x) => Math.exp(40 * (x - 3.9))));
    expect(keepingSample(skewed, limits).keeping).toMatchObject({ kind: 'share', why: 'not-normal' });
    const same = passing(normal.map(() => 3.9));
    expect(keepingSample(same, limits).keeping).toMatchObject({ kind: 'share', why: 'no-scatter', outside: 0 });
    const faulty = [...passing(normal), { number: 9, verdict: 'fault' as const }];
    expect(keepingSample(faulty, limits).keeping).toMatchObject({ kind: 'share', why: 'faults', outside: 1 });
  });

  it('counts every reading once, whatever its verdict', () => {
    const verdict = fc.constantFrom('pass', 'fail', 'unsure', 'fault', 'recorded' as const);
    const any = fc.array(fc.record({ number: fc.double({ min: -10, max: 10, noNaN: true }), verdict }), {
      maxLength: 40,
    });
    fc.assert(
      fc.property(any, (readings) => {
        const { count, pass, fail, unsure, fault, recorded, min, mean, max, keeping } = keepingSample(
          readings as never,
          limits,
        );
        expect(pass + fail + unsure + fault + recorded).toBe(count);
        expect(min === undefined).toBe(fault === count);
        if (min !== undefined && mean !== undefined && max !== undefined) {
          expect(min <= mean + 1e-9 && mean <= max + 1e-9).toBe(true);
        }
        expect(keeping.kind === 'not-claimed').toBe(count < claims.shareFrom);
      }),
      { numRuns: 300 },
    );
  });

  it('says that all lie by one limit only of five or more', () => {
    expect(nearSide(passing([4.12, 4.13, 4.15, 4.16, 4.2]), limits)).toBe('high');
    expect(nearSide(passing([3.6, 3.64, 3.65, 3.66, 3.68]), limits)).toBe('low');
    expect(nearSide(passing([4.12, 4.13, 4.15, 4.16]), limits)).toBeUndefined();
    expect(nearSide(passing([4.1, 4.13, 4.15, 4.16, 4.17]), limits)).toBeUndefined();
    expect(nearSide(passing([1, 1, 1, 1, 1]), { low: 1, revision: 3 })).toBeUndefined();
  });
});

describe('between two jobs', () => {
  const hours = (text: string) => ({ kind: 'fact', name: 'engine-hours', text }) as const;
  const serial = { kind: 'fact', name: 'machine-serial', text: '70-00317' } as const;

  it('a value moves from as left to as found, on the same unit alone', () => {
    const { drift } = report([
      made({ id: 1, day: '2026-03-02', page: { unit: 'unit-17' }, acts: [hours('1000'), ...set('3.41', '3.92')] }),
      made({ id: 2, day: '2026-03-12', page: { unit: 'unit-21' }, acts: set('3.50', '3.99') }),
      made({ id: 3, day: '2026-04-01', acts: [serial, hours('1240.5'), ...set('3.60', '3.90')] }),
    ]);
    expect(drift).toHaveLength(1);
    expect(drift[0]).toMatchObject({
      of: 'unit-17',
      left: { on: '2026-03-02', number: 3.92, verdict: 'pass' },
      found: { on: '2026-04-01', number: 3.6, verdict: 'fail' },
      days: 30,
      hours: 240.5,
    });
    expect(drift[0]?.change).toBeCloseTo(-0.32, 12);
    expect(drift[0]?.share).toBeCloseTo(-0.32 / 0.54, 12);
  });

  it('nothing is said of faults, of machines that nobody named, and of hours that run backwards', () => {
    const two = (first: object, second: object) =>
      report([
        made({ id: 1, day: '2026-03-02', ...first, acts: [hours('1240'), ...set('3.41', '3.92')] }),
        made({ id: 2, day: '2026-03-12', ...second, acts: [hours('1000'), ground('3.8')] }),
      ]).drift;
    expect(two({}, {})).toEqual([]);
    const page = { unit: 'unit-17' };
    expect(two({ page }, { page })[0]).not.toHaveProperty('hours');
    const faulty = [
      made({ id: 1, day: '2026-03-02', page, acts: set('3.41', '3.92') }),
      made({ id: 2, day: '2026-03-12', page, acts: [ground('34', { verdict: 'fault' })] }),
    ];
    expect(report(faulty).drift).toEqual([]);
  });
});

describe('what else records tell', () => {
  it('pages found wrong stand by procedure and step, each once', () => {
    const wrong = (text: string, step?: string) =>
      ({ kind: 'wrong', text, ...(step !== undefined && { step }) }) as const;
    const record = made({
      id: 1,
      day: '2026-03-02',
      acts: [wrong('Ten.', '10'), wrong('Two.', '2'), wrong('The page.')],
      later: [wrong('Later.', '2')],
    });
    const page = { ...record.page, rig: 'x' };
    const sent = { at: '2026-01-01T08:00:00.000Z', page, step: '2', text: 'Without a job.' };
    const wrongPages = [
      { file: 'a.json', reports: [sent] },
      { file: 'b.json', reports: [sent] },
    ];
    const found = report([record], { wrongPages }).wrong;
    expect(found.map(({ step, text, on }) => [step, text, on])).toEqual([
      [undefined, 'The page.', '2026-03-02'],
      ['2', 'Without a job.', '2026-01-01'],
      ['2', 'Two.', '2026-03-02'],
      ['2', 'Later.', '2026-03-02'],
      ['10', 'Ten.', '2026-03-02'],
    ]);
  });

  it('an instrument is in doubt when its calibration is too old, dated after the job, or no date', () => {
    const job = (id: number, text: string, later?: string) =>
      made({
        id,
        day: '2026-03-02',
        acts: [{ kind: 'fact', name: 'instrument-calibrated', text }, ground('3.8')],
        ...(later !== undefined && { later: [{ kind: 'fact', name: 'instrument-calibrated', text: later }] as const }),
      });
    const found = report([
      job(1, '2025-03-01'),
      job(2, '2025-03-02'),
      job(3, '2026-03-03'),
      job(4, 'March'),
      job(5, '2024-01-01', '2026-01-01'),
      job(6, ''),
    ]).instruments;
    expect(found.map(({ record, why }) => [Number.parseInt(record, 16), why])).toEqual([
      [1, 'old'],
      [3, 'later'],
      [4, 'no-date'],
    ]);
    expect(found[0]?.values).toEqual(['on_ground']);
  });

  it('nothing is said of no records', () => {
    expect(report([])).toMatchObject({
      jobs: { count: 0, open: 0 },
      values: [],
      drift: [],
      wrong: [],
      instruments: [],
    });
  });
});

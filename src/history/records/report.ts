// The records of a book taken together: readings against limits, drift, pages found wrong, instruments in doubt.

import { addMonths } from '../../model/dates.js';
import type { DoubtfulInstrument, RecordsReport, WrongNote } from '../../model/records-report.js';
import { compareText } from '../../text/compare-text.js';
import { reportDrift } from './drift.js';
import { factOf, type KeptJob } from './kept-job.js';
import { claims } from './samples.js';
import { reportValues } from './value-reports.js';
import type { WrongPages } from './wrong-pages.js';

/** What is reported on, chosen and sorted by the caller: the oldest job first. */
export interface ReportInput {
  readonly jobs: readonly KeptJob[];
  /** Pages found wrong without a job, by file. */
  readonly wrongPages: readonly { readonly file: string; readonly reports: WrongPages['reports'] }[];
  readonly unused: RecordsReport['unused'];
  readonly calibratedWithinMonths: number;
  /** The book's first. */
  readonly language: string;
}

/** The whole report; the same records give the same report. */
export function reportRecords(input: ReportInput): RecordsReport {
  const { jobs, unused, calibratedWithinMonths, language } = input;
  const [first, last] = [jobs[0]?.day, jobs.at(-1)?.day];
  return {
    format: 'stepgauge-records-report',
    version: 1,
    jobs: {
      count: jobs.length,
      open: jobs.filter(({ record }) => record.state === 'open').length,
      ...(first !== undefined && last !== undefined && { from: first, to: last }),
    },
    claims: { ...claims, calibratedWithinMonths },
    values: reportValues(jobs, language),
    drift: reportDrift(jobs),
    wrong: wrongNotes(input),
    instruments: jobs.flatMap((job) => doubtfulInstrument(job, calibratedWithinMonths)),
    unused,
  };
}

/** By procedure and step, the oldest first; one that was sent twice is one. */
function wrongNotes({ jobs, wrongPages }: ReportInput): readonly WrongNote[] {
  const notes = [
    ...jobs.flatMap(({ file, record }) =>
      [...record.wrong, ...record.amendments.filter(({ kind }) => kind === 'wrong')].map((one) =>
        noteOf(file, { ...one, page: record.page }),
      ),
    ),
    ...wrongPages.flatMap(({ file, reports }) => reports.map((one) => noteOf(file, one))),
  ];
  const keyed = new Map(notes.map((note) => [JSON.stringify([note.path, note.at, note.step, note.text]), note]));
  return [...keyed.values()]
    .sort((a, b) => compareText(a.procedure, b.procedure) || compareSteps(a.step, b.step) || compareText(a.at, b.at))
    .map(({ at: _, ...note }) => note);
}

type Wrong = Pick<WrongPages['reports'][number], 'at' | 'step' | 'text'> & {
  readonly page: Omit<WrongPages['reports'][number]['page'], 'rig'>;
};

function noteOf(file: string, { at, step, text, page }: Wrong): WrongNote & { readonly at: string } {
  const { procedure, title, revision, language, path } = page;
  return {
    procedure,
    title,
    ...(step !== undefined && { step }),
    revision,
    language,
    path,
    on: at.slice(0, 10),
    text,
    file,
    at,
  };
}

/** The page as a whole, then labels with their numbers as numbers: 2 before 10, 4.2 before 4.10. */
function compareSteps(a = '', b = ''): number {
  const padded = (label: string): string => label.replaceAll(/\d+/g, (digits) => digits.padStart(6, '0'));
  return compareText(padded(a), padded(b));
}

function doubtfulInstrument(job: KeptJob, months: number): readonly DoubtfulInstrument[] {
  const { record, day } = job;
  const calibrated = factOf(record, 'instrument-calibrated');
  if (calibrated === undefined) return [];
  const why = whyDoubtful(calibrated, day, months);
  if (!why) return [];
  const instrument = factOf(record, 'instrument');
  return [
    {
      record: record.id,
      on: day,
      ...(instrument !== undefined && { instrument }),
      calibrated,
      why,
      values: record.values.map(({ value }) => value),
    },
  ];
}

function whyDoubtful(calibrated: string, day: string, months: number): DoubtfulInstrument['why'] | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(calibrated) || Number.isNaN(Date.parse(calibrated))) return 'no-date';
  if (calibrated > day) return 'later';
  return addMonths(calibrated, months) < day ? 'old' : undefined;
}

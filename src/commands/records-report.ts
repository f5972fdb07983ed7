// `stepgauge records report`: what the records of a book say taken together.

import { join } from 'node:path';
import { nearestNames } from '../diagnostic/nearest.js';
import { type KeptJob, keptJob, rigOf } from '../history/records/kept-job.js';
import { type ReportInput, reportRecords } from '../history/records/report.js';
import { readTextFile } from '../io.js';
import { compareText } from '../text/compare-text.js';
import { type OpenedBook, openKnownBook } from './known-book.js';
import { Misuse } from './misuse.js';
import { dateOf } from './options.js';
import { openRecordText, openStore } from './record-store.js';
import { renderReport } from './records-text.js';
import type { Terminal } from './terminal.js';

export interface RecordsReportOptions {
  readonly format: 'text' | 'json';
  readonly machine?: string;
  readonly unit?: string;
  readonly procedure?: string;
  readonly since?: string;
  readonly calibratedWithin: string;
}

/** Gives the exit code: 0, or 1 where a file could not be used or the book has errors. */
export function runRecordsReport(path: string | undefined, options: RecordsReportOptions, terminal: Terminal): number {
  const since = options.since === undefined ? undefined : dateOf('--since', options.since);
  const months = monthsOf(options.calibratedWithin);
  const book = openKnownBook(path, terminal);
  if (!book) return 1;
  const wanted = chosen(readStore(book), book, { ...options, ...(since !== undefined && { since }) });
  const { settings, fleet } = book.book;
  const report = reportRecords({
    ...wanted,
    calibratedWithinMonths: months,
    language: settings.languages[0] ?? 'en',
  });
  const customer = (unit: string): string | undefined => fleet.find(({ id }) => id.value === unit)?.customer?.value;
  terminal.out(options.format === 'json' ? `${JSON.stringify(report, null, 2)}\n` : renderReport(report, { customer }));
  return report.unused.length > 0 ? 1 : 0;
}

type Read = Omit<ReportInput, 'calibratedWithinMonths' | 'language'>;

/** Everything that is kept, the oldest job first. */
function readStore(book: OpenedBook): Read {
  const { folder, names } = openStore(book.folder);
  const [jobs, wrongPages, unused]: [KeptJob[], Read['wrongPages'][number][], Read['unused'][number][]] = [[], [], []];
  for (const file of names) {
    const opened = openRecordText(readTextFile(join(folder, file)));
    if (opened.kind === 'record') jobs.push(keptJob(file, opened.record, book));
    else if (opened.kind === 'wrong-pages') wrongPages.push({ file, reports: opened.list.reports });
    else unused.push({ file, why: opened.message });
  }
  jobs.sort((a, b) => compareText(a.record.begun, b.record.begun) || compareText(a.record.id, b.record.id));
  return { jobs, wrongPages, unused };
}

/** What the options ask for. Throws `Misuse` for a name that neither the book nor a record has. */
function chosen(
  all: Read,
  { book, homes }: OpenedBook,
  options: Omit<RecordsReportOptions, 'format' | 'calibratedWithin'>,
): Read {
  const { machine, unit, procedure, since } = options;
  const { jobs, wrongPages, unused } = all;
  refuseUnknown('machine', machine, [...book.machines.keys(), ...jobs.map(({ rig }) => rig.machine)]);
  refuseUnknown('unit', unit, [...book.fleet.map(({ id }) => id.value), ...jobs.flatMap((job) => job.unit ?? [])]);
  refuseUnknown('procedure', procedure, [
    ...book.procedures.keys(),
    ...jobs.map(({ record }) => record.page.procedure),
  ]);
  const isWanted = (is: { machine: string; unit: string | undefined; procedure: string; day: string }): boolean =>
    (machine === undefined || is.machine === machine) &&
    (unit === undefined || is.unit === unit) &&
    (procedure === undefined || is.procedure === procedure) &&
    (since === undefined || is.day >= since);
  return {
    jobs: jobs.filter(({ rig, unit: own, record, day }) =>
      isWanted({ machine: rig.machine, unit: own, procedure: record.page.procedure, day }),
    ),
    wrongPages: wrongPages.map(({ file, reports }) => ({
      file,
      reports: reports.filter(({ page, at }) =>
        isWanted({
          machine: rigOf({ page }, { homes }).machine,
          unit: page.unit,
          procedure: page.procedure,
          day: at.slice(0, 10),
        }),
      ),
    })),
    unused,
  };
}

function refuseUnknown(kind: string, name: string | undefined, known: readonly string[]): void {
  if (name === undefined || known.includes(name)) return;
  const near = nearestNames(name, known).map((one) => `\`${one}\``);
  const guess = near.length > 0 ? `; did you mean ${near.join(' or ')}?` : '';
  throw new Misuse(`Neither the book nor a record has the ${kind} \`${name}\`${guess}`);
}

function monthsOf(text: string): number {
  if (/^[1-9]\d{0,2}$/.test(text)) return Number(text);
  throw new Misuse(`Unexpected \`--calibrated-within ${text}\`, expected a number of months such as 12`);
}

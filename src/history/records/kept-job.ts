// A kept record with what the report asks of it first: which unit, which machine, which day, and its facts as amended.

import type { Book } from '../../model/book.js';
import type { FactName, JobRecord } from '../../model/job-record.js';
import type { ReportRig } from '../../model/records-report.js';
import { homeOf, type KnownBook, plainPath } from './check-record.js';

export interface KeptJob {
  /** The name of its file. */
  readonly file: string;
  readonly record: JobRecord;
  readonly rig: ReportRig;
  /** The unit's id, or the machine's serial where the fleet does not know it; missing where neither was said. */
  readonly unit?: string;
  readonly day: string;
}

/** A record as it is kept under a name. */
export function keptJob(file: string, record: JobRecord, known: Pick<KnownBook, 'book' | 'homes'>): KeptJob {
  const unit = unitOf(record, known.book);
  return {
    file,
    record,
    rig: rigOf(record, known),
    day: record.begun.slice(0, 10),
    ...(unit !== undefined && { unit }),
  };
}

/** What a record says of the job: an amendment before what was said at work, the last of several; undefined for nothing. */
export function factOf({ facts, amendments }: JobRecord, name: FactName): string | undefined {
  const amended = amendments.findLast((one) => one.kind === 'fact' && one.name === name);
  const text = (amended ?? facts.find((fact) => fact.name === name && !fact.corrected))?.text.trim();
  return text === '' ? undefined : text;
}

function unitOf(record: JobRecord, { fleet }: Book): string | undefined {
  const { unit } = record.page;
  if (unit !== undefined) return unit;
  const serial = factOf(record, 'machine-serial') ?? record.page.serial;
  if (serial === undefined) return undefined;
  return fleet.find((one) => one.serial?.value === serial)?.id.value ?? serial;
}

/** What the address of a page says; the folders themselves where the book has that pair no more. */
export function rigOf({ page }: Pick<JobRecord, 'page'>, known: Pick<KnownBook, 'homes'>): ReportRig {
  const [machine = '', header = '', , version = ''] = plainPath(page).split('/');
  const { machine: ownMachine, header: ownHeader } = homeOf(page, known) ?? { machine, header };
  return { machine: ownMachine, header: ownHeader, ...(version !== '' && { version }) };
}

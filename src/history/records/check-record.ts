// A record that came in against the book: whether it is one of this book, and whole. Words for the desk, nothing printed.

import type { Book } from '../../model/book.js';
import type { JobRecord, RecordPage } from '../../model/job-record.js';
import type { Procedure } from '../../model/procedure.js';
import { readingNumber } from './reading-number.js';
import { actsOf } from './record-acts.js';

/** What the desk knows when it takes a record in. */
export interface KnownBook {
  readonly book: Book;
  /** Machine and header by the folder of their pages: `tarn-40/row-12x20/`. */
  readonly homes: ReadonlyMap<string, { readonly machine: string; readonly header: string }>;
  /** By procedure, what its pages in this book may give as their content; none where that could not be worked out. */
  readonly contents: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Why a record is not taken in, and what to do. */
export interface Objection {
  readonly message: string;
  readonly help: string;
}

export interface CheckedRecord {
  /** None: it may be taken in. */
  readonly objections: readonly Objection[];
  /** What is odd about it, and no reason to refuse it. */
  readonly notes: readonly string[];
}

const sendAgain = 'Have it sent again from the phone. If somebody edited the file, import the one that was sent.';

/** Checks a record that has the shape of one. */
export function checkRecord(record: JobRecord, known: KnownBook): CheckedRecord {
  const pages = [record.begunBy, record.page, ...record.revisions.map(({ page }) => page)];
  const whole = checkWhole(record);
  const belonging = firstOf(pages.map((page) => checkPage(page, known)));
  if (whole.length > 0 || belonging) return { objections: [...whole, ...(belonging ? [belonging] : [])], notes: [] };
  return checkValues(record, known);
}

function firstOf<T>(list: readonly (T | undefined)[]): T | undefined {
  return list.find((one) => one !== undefined);
}

/** What a phone never writes: two acts in one place, a found reading that is not there, a reading that is no number. */
function checkWhole(record: JobRecord): readonly Objection[] {
  const acts = actsOf(record);
  const twice = acts.find(({ act }, i) => act.order === acts[i + 1]?.act.order);
  const unread = record.values.find(({ value, asFound, asLeft }) =>
    [asFound, asLeft].some(
      (order) => order !== undefined && !record.readings.some((one) => one.order === order && one.value === value),
    ),
  );
  const noNumber = record.readings.find((reading) => !readingNumber(reading));
  const changed = (message: string): Objection => ({ message, help: sendAgain });
  return [
    ...(twice ? [changed(`Two acts stand in place ${twice.act.order}, where a phone writes one`)] : []),
    ...(unread ? [changed(`What was found or left of \`${unread.value}\` is not among the readings`)] : []),
    ...(noNumber
      ? [changed(`The reading of \`${noNumber.value}\` at step ${noNumber.step} is no number: ${sayReading(noNumber)}`)]
      : []),
  ];
}

function sayReading({ text, unit }: { readonly text: string; readonly unit: string }): string {
  return `\`${text}${unit === '' ? '' : ` ${unit}`}\``;
}

function checkPage(page: RecordPage, known: KnownBook): Objection | undefined {
  const { book } = known;
  const procedure = book.procedures.get(page.procedure);
  const elsewhere = 'Import it with `--book` into the book whose site the phone was on.';
  if (!procedure) {
    return { message: `This book has no procedure \`${page.procedure}\` (${page.title})`, help: elsewhere };
  }
  if (page.revision > procedure.revision.value) {
    return {
      message: `It was worked by revision ${page.revision} of \`${page.procedure}\`; this book has revision ${procedure.revision.value}`,
      help: 'Bring this copy of the book up to date, then import again; or import it with `--book` into the book whose site the phone was on.',
    };
  }
  if (homeOf(page, known)) return undefined;
  return {
    message: `This book has no machine and header whose pages are at \`${page.path}\``,
    help: `${elsewhere} A machine or header that was taken out of the book has to be put back for the import.`,
  };
}

/** The machine and header of a page; undefined where the book has no such pair. */
export function homeOf(
  { path, procedure, language }: Pick<RecordPage, 'path' | 'procedure' | 'language'>,
  { homes }: Pick<KnownBook, 'homes'>,
): { readonly machine: string; readonly header: string } | undefined {
  const [machine = '', header = '', own] = plainPath({ path, language }).split('/');
  return own === procedure ? homes.get(`${machine}/${header}/`) : undefined;
}

/** The path of a page without the folder of its language. */
export function plainPath({ path, language }: Pick<RecordPage, 'path' | 'language'>): string {
  return path.startsWith(`${language}/`) ? path.slice(language.length + 1) : path;
}

function checkValues(record: JobRecord, known: KnownBook): CheckedRecord {
  const { page } = record;
  const procedure = known.book.procedures.get(page.procedure);
  if (!procedure) throw new Error(`No procedure ${page.procedure}`);
  const names = valuesWithin(procedure, known.book);
  const unknown = record.values.map(({ value }) => value).filter((value) => !names.has(bareName(value)));
  const isNow = page.revision === procedure.revision.value;
  const strange = unknown.map((value) => `\`${value}\``).join(', ');
  if (unknown.length > 0 && (isNow || unknown.length === record.values.length)) {
    return {
      objections: [
        {
          message: `\`${page.procedure}\` of this book does not read ${strange}`,
          help: 'Import it with `--book` into the book whose site the phone was on, or bring this copy of the book up to date.',
        },
      ],
      notes: [],
    };
  }
  const contents = known.contents.get(page.procedure);
  const { unit } = page;
  return {
    objections: [],
    notes: [
      ...(unknown.length > 0
        ? [`revision ${page.revision} read ${strange}, which \`${page.procedure}\` reads no more`]
        : []),
      ...(isNow && contents && contents.size > 0 && !contents.has(page.content)
        ? [`its page was made from another text of revision ${page.revision} than this book has`]
        : []),
      ...(unit !== undefined && !known.book.fleet.some(({ id }) => id.value === unit)
        ? [`\`fleet.yaml\` has no unit \`${unit}\``]
        : []),
    ],
  };
}

/** `on_ground` of `4:on_ground`, which step 4 runs. */
function bareName(value: string): string {
  return value.slice(value.lastIndexOf(':') + 1);
}

/** All that a procedure reads, with what its steps and its ends run: values, and results of worksheets as `loads.worst`. */
function valuesWithin(procedure: Procedure, book: Book): ReadonlySet<string> {
  const names = new Set<string>();
  const seen = new Set<string>();
  const visit = ({ id, values, worksheets, steps }: Procedure): void => {
    if (seen.has(id)) return;
    seen.add(id);
    for (const value of values) names.add(value.id);
    for (const sheet of worksheets) for (const result of sheet.results) names.add(`${sheet.id}.${result.id}`);
    const runs = [...steps.map(({ run }) => run), ...[...book.ends.values()].map(({ run }) => run)];
    for (const run of runs) {
      const inner = run && book.procedures.get(run.value);
      if (inner) visit(inner);
    }
  };
  visit(procedure);
  return names;
}

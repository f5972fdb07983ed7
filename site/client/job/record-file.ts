// A record as a file to send: JSON by schema/job-record.schema.json with its pictures inside, so that it is one file; and CSV
// for a spreadsheet (RFC 4180), a row for each thing that was done. Both say the same in every language.

import type { Item, JobRecord, RecordFact, RecordPhoto, RecordReading } from '../../../src/model/job-record.js';

/** A name for the file of a record, without ending: `record-learn-height-range-2026-11-25-01234567`. */
export function recordName({ page, begun, id }: JobRecord): string {
  return ['record', page.procedure, begun.slice(0, 10), id.slice(0, 8)].join('-').replaceAll(/[^\w.-]+/g, '-');
}

/** The record as JSON. `pictures` are data URLs by the name of the photo; one that is missing is left out. */
export function recordJson(record: JobRecord, pictures: ReadonlyMap<string, string> = new Map()): string {
  const photos = record.photos.map((photo): RecordPhoto => {
    const picture = pictures.get(photo.photo);
    // what was kept is what is sent: a picture that was made small is no longer of the type that the camera gave it
    return picture === undefined ? photo : { ...photo, type: picture.slice(5, picture.indexOf(';')), picture };
  });
  return `${JSON.stringify({ ...record, photos }, null, 2)}\n`;
}

const columns = [
  'order',
  'at',
  'what',
  'step',
  'name',
  'text',
  'unit',
  'verdict',
  'limits',
  'instrument',
  'counts as',
  'by',
] as const;
type Row = Partial<Record<(typeof columns)[number], string | number>>;

/** The record as a table: first what the job is, then all that was done, in the order of work. */
export function recordCsv(record: JobRecord): string {
  const { page } = record;
  const head: readonly Row[] = [
    { what: 'job', name: 'procedure', text: page.procedure },
    { what: 'job', name: 'title', text: page.title },
    { what: 'job', name: 'revision', text: page.revision },
    { what: 'job', name: 'rig', text: record.rig },
    { what: 'job', name: 'unit', text: page.unit ?? '' },
    { what: 'job', name: 'serial', text: page.serial ?? '' },
    { what: 'job', name: 'code', text: page.code },
    { what: 'job', name: 'state', text: record.state },
    { what: 'job', name: 'end', text: record.end ?? '' },
    { what: 'job', name: 'id', text: record.id },
    { what: 'job', name: 'begun', at: record.begun },
    { what: 'job', name: 'closed', at: record.closed ?? '' },
  ];
  const done = rowsOf(record).sort((a, b) => Number(a.order) - Number(b.order));
  const lines = [...head, ...done].map((row) => columns.map((column) => field(row[column] ?? '')).join(','));
  // the mark at the start tells spreadsheets that it is UTF-8
  return `\uFEFF${[columns.join(','), ...lines].join('\r\n')}\r\n`;
}

function rowsOf(record: JobRecord): Row[] {
  const each = <T extends Item>(items: readonly T[], what: string, rest: (item: T) => Row): readonly Row[] =>
    items.map((item) => ({ order: item.order, at: item.at, what, ...counting(item), ...rest(item) }));
  return [
    ...each(record.facts, 'fact', (fact) => ({ name: fact.name, text: factText(fact) })),
    ...each(record.readings, 'reading', (reading) => readingRow(record, reading)),
    ...each(record.adjustments, 'adjustment', ({ step, label, text, unit }) => ({ step, name: label, text, unit })),
    ...each(record.cells, 'cell', ({ step, worksheet, row, column, text, word, unit = '' }) => ({
      step,
      name: `${worksheet} ${row} ${column}`,
      text: word === undefined || word === text ? text : `${text} (${word})`,
      unit,
    })),
    ...each(record.ticks, 'tick', ({ words, met }) => ({ name: words, text: met ? 'met' : 'taken back' })),
    ...each(record.marks, 'mark', ({ step, mark }) => ({ step, text: mark })),
    ...each(record.notes, 'note', ({ step = '', text }) => ({ step, text })),
    ...each(record.photos, 'photo', ({ step, photo }) => ({ step, text: photo })),
    ...each(record.wrong, 'page wrong', ({ step = '', text }) => ({ step, text })),
    ...each(record.ways, 'step', ({ step, by, to, words = '', answer = by }) => ({
      step,
      name: words,
      text: `${answer}: ${to}`,
    })),
    ...each(record.revisions, 'revised', ({ page, from }) => ({ step: from, text: `revision ${page.revision}` })),
    ...each(record.amendments, 'amendment', ({ step = '', kind, name = kind, text, why, who }) => ({
      step,
      name: `${name} (${why})`,
      text,
      by: who,
    })),
  ];
}

function counting(item: Item & { readonly corrected?: true }): Row {
  return item.corrected ? { 'counts as': 'corrected' } : {};
}

// a drawn signature says nothing in a cell of a table
function factText({ name, text }: RecordFact): string {
  return name === 'signature' && text !== '' ? 'signed' : text;
}

function readingRow(record: JobRecord, reading: RecordReading): Row {
  const own = record.values.find(({ value }) => value === reading.value);
  const counts = [
    ...(own?.asFound === reading.order ? ['as found'] : []),
    ...(own?.asLeft === reading.order ? ['as left'] : []),
  ];
  const { step, label, text, unit, verdict, side, limits = '', instrument = '' } = reading;
  return {
    step,
    name: label,
    text,
    unit,
    verdict: side ? `${verdict}, ${side}` : verdict,
    limits,
    instrument,
    ...(counts.length > 0 && { 'counts as': counts.join(' and ') }),
  };
}

/** RFC 4180, 2.5 to 2.7. What a spreadsheet would take for a formula gets an apostrophe in front; a number does not. */
function field(content: string | number): string {
  const text = String(content);
  const isFormula = /^[=@\t\r]/.test(text) || (/^[+-]/.test(text) && !/^[+-]\d[\d.,]*$/.test(text));
  const safe = isFormula ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

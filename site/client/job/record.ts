// The record of a job, worked out from all that was done. Pure: the same list gives the same record, and every entry of the
// list stands in it exactly once.

import type {
  Item,
  JobRecord,
  RecordAmendment,
  RecordPage,
  RecordReading,
  RecordValue,
  RecordWay,
} from '../../../src/model/job-record.js';
import { recordVersion } from '../../../src/model/job-record.js';
import type { Act, Entry, Job, JobPage } from './journal.js';

type Kind = Act['kind'];
type Numbered<K extends Kind = Kind> = Extract<Entry, { readonly kind: K }> & Item;

/** The record of a job: as found, as left and all that lies between. Also of one that is open: then of what was done so far. */
export function recordOf(job: Job): JobRecord {
  const numbered = job.entries.map((entry, index): Numbered => ({ ...entry, order: index + 1 }));
  const done = numbered.filter(({ amendment }) => !amendment);
  const closed = done.find(isKind('close'));
  const readings = readingsOf(job.page, done);
  const turns = done.filter(isKind('turn'));
  const end = endOf(done);
  const revisions = done.filter(isKind('revised'));
  return {
    format: 'stepgauge-record',
    version: recordVersion,
    id: job.id,
    state: job.state,
    begun: job.begun,
    ...(closed && { closed: closed.at }),
    ...(end && { end }),
    rig: (revisions.at(-1)?.page ?? job.page).rig,
    begunBy: pageOf(job.page),
    page: pageOf(revisions.at(-1)?.page ?? job.page),
    facts: correctEarlier(done.filter(isKind('fact')), ({ name }) => name).map(withoutKind),
    values: valuesOf(readings, turns),
    readings,
    adjustments: turns.map(withoutKind),
    cells: correctEarlier(done.filter(isKind('cell')), cellPlace).map(withoutKind),
    ticks: correctEarlier(done.filter(isKind('tick')), tickPlace).map(withoutKind),
    marks: done.filter(isKind('mark')).map(withoutKind),
    notes: done.filter(isKind('note')).map(withoutKind),
    photos: done.filter(isKind('photo')).map(withoutKind),
    wrong: done.filter(isKind('wrong')).map(withoutKind),
    ways: done.filter(isWay).map(wayOf),
    revisions: revisions.map(({ order, at, page, from }) => ({ order, at, page: pageOf(page), from })),
    amendments: numbered.flatMap(amendmentOf),
  };
}

function isKind<K extends Kind>(kind: K): (entry: Numbered) => entry is Numbered<K> {
  return (entry): entry is Numbered<K> => entry.kind === kind;
}

function withoutKind<T extends { readonly kind: Kind }>({ kind: _, ...rest }: T): Omit<T, 'kind'> {
  return rest;
}

function pageOf({ rig: _, serials: __, ...page }: JobPage): RecordPage {
  return page;
}

const ends = ['done', 'stop', 'call-service'] as const;

/** The end that the last step was left for; none where the walk went back from it or never came there. */
function endOf(done: readonly Numbered[]): JobRecord['end'] {
  const last = done.findLast(isWay);
  return last?.kind === 'leave' ? ends.find((end) => end === placeName(last.to)) : undefined;
}

const isWay = (entry: Numbered): entry is Numbered<'leave' | 'back'> => entry.kind === 'leave' || entry.kind === 'back';

function wayOf(entry: Numbered<'leave' | 'back'>): RecordWay {
  const { kind, ...rest } = { ...entry, step: placeName(entry.step), to: placeName(entry.to) };
  return kind === 'leave' ? (rest as RecordWay) : { ...rest, by: 'back' };
}

/** Ends are named as the book names them, however the walk marks them off from steps. */
function placeName(place: string): string {
  return place.replace(/^end:/, '');
}

const cellPlace = ({ step, worksheet, row, column }: Numbered<'cell'>): string =>
  JSON.stringify([step, worksheet, row, column]);
const tickPlace = ({ condition, words }: Numbered<'tick'>): string => JSON.stringify([condition, words]);

/** Of several entries with one place the last counts; those before are kept and marked. */
function correctEarlier<T extends object>(
  entries: readonly T[],
  placeOf: (entry: T) => string,
): readonly (T & { corrected?: true })[] {
  const last = new Map(entries.map((entry) => [placeOf(entry), entry]));
  return entries.map((entry) => (last.get(placeOf(entry)) === entry ? entry : { ...entry, corrected: true as const }));
}

function readingsOf(page: JobPage, done: readonly Numbered[]): readonly RecordReading[] {
  const visits = visitsOf(done);
  let { revision } = page;
  const readings: { reading: RecordReading; place: string }[] = [];
  done.forEach((entry, index) => {
    if (entry.kind === 'revised') revision = entry.page.revision;
    if (entry.kind !== 'read') return;
    const place = JSON.stringify([visits[index], entry.step, entry.value]);
    readings.push({ reading: { ...withoutKind(entry), revision }, place });
  });
  const last = new Map(readings.map(({ reading, place }) => [place, reading.order]));
  return readings.map(({ reading, place }) =>
    last.get(place) === reading.order ? reading : { ...reading, corrected: true as const },
  );
}

/**
 * For each entry, during which visit to a step it was made. A step that is gone back to at once is visited on: the
 * reading is put right. After an adjustment, or by a longer way, it is a new visit: the thing is measured again.
 */
function visitsOf(done: readonly Numbered[]): readonly number[] {
  let now = 0;
  let left: { readonly step: string; readonly visit: number } | undefined;
  return done.map((entry, index) => {
    const visit = now;
    if (entry.kind === 'leave') {
      left = { step: entry.step, visit: now };
      now = index + 1;
    } else if (entry.kind === 'back') {
      now = left?.step === entry.to ? left.visit : index + 1;
      left = undefined;
    } else if (entry.kind === 'turn' || entry.kind === 'revised') {
      left = undefined;
      now = index + 1;
    } else if (entry.kind === 'read' || entry.kind === 'cell') {
      left = undefined;
    }
    return visit;
  });
}

/** Semantics of *as found* and *as left*: before the first adjustment that moves a value, and after the last. */
function valuesOf(readings: readonly RecordReading[], turns: readonly Numbered<'turn'>[]): readonly RecordValue[] {
  const standing = readings.filter(({ corrected }) => !corrected);
  return [...new Map(standing.map(({ value, label }) => [value, label]))].map(([value, label]) => {
    const own = standing.filter((reading) => reading.value === value);
    const moved = turns.filter(({ moves }) => moves.includes(value)).map(({ order }) => order);
    const [first = Number.POSITIVE_INFINITY, last = 0] = [moved[0], moved.at(-1)];
    const asFound = own.find(({ order }) => order < first)?.order;
    const asLeft = own.findLast(({ order }) => order > last)?.order;
    return {
      value,
      label,
      adjusted: moved.length > 0,
      ...(asFound !== undefined && { asFound }),
      ...(asLeft !== undefined && { asLeft }),
    };
  });
}

function amendmentOf(entry: Numbered): readonly RecordAmendment[] {
  const { amendment, order, at } = entry;
  if (!amendment) return [];
  if (entry.kind !== 'note' && entry.kind !== 'fact' && entry.kind !== 'wrong') {
    throw new Error(`A closed job cannot be amended by an act of kind ${entry.kind}`);
  }
  const { kind, text } = entry;
  return [
    {
      order,
      at,
      ...amendment,
      kind,
      text,
      ...(entry.kind === 'fact' ? { name: entry.name } : entry.step !== undefined && { step: entry.step }),
    },
  ];
}

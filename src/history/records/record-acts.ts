// All that was done in a record, as one list; and how two states of the same record stand to each other.

import type { Item, JobRecord, RecordPhoto } from '../../model/job-record.js';

const lists = [
  'facts',
  'readings',
  'adjustments',
  'cells',
  'ticks',
  'marks',
  'notes',
  'photos',
  'wrong',
  'ways',
  'revisions',
  'amendments',
] as const satisfies readonly (keyof JobRecord)[];

/** An act with the list that it stands in. */
export interface ListedAct {
  readonly list: (typeof lists)[number];
  readonly act: Item;
}

/** Every act of a record, in the order of work. */
export function actsOf(record: JobRecord): readonly ListedAct[] {
  return lists
    .flatMap((list) => record[list].map((act): ListedAct => ({ list, act })))
    .sort((a, b) => a.act.order - b.act.order);
}

/**
 * How a state that came in stands to the one that is kept: the `same`; `more`, it holds all that is kept and something
 * besides; `earlier`, what is kept holds all of it and more; `other`, it lacks something that is kept, and has something else.
 */
export type Standing =
  | { readonly kind: 'same' | 'earlier' }
  /** The state to keep: with the pictures that only the kept one still has. */
  | { readonly kind: 'more'; readonly record: JobRecord }
  | { readonly kind: 'other'; readonly missing: string };

/** Compares two states of a record, pictures inside, by what was done and not by what is worked out from it. */
export function compareStates(kept: JobRecord, came: JobRecord): Standing {
  const record = withPicturesOf(kept, came);
  const lost = firstMissing(kept, record);
  const isMore = firstMissing(record, kept) !== undefined;
  if (lost === undefined) return isMore ? { kind: 'more', record } : { kind: 'same' };
  return isMore ? { kind: 'other', missing: lost } : { kind: 'earlier' };
}

/** The first thing of `whole` that `other` does not hold just so, in words; undefined where it holds all. */
function firstMissing(whole: JobRecord, other: JobRecord): string | undefined {
  if (whole.begun !== other.begun || essence(whole.begunBy) !== essence(other.begunBy)) return 'how the job began';
  const acts = new Map(actsOf(other).map((one) => [one.act.order, essence(one)]));
  const missing = actsOf(whole).find((one) => acts.get(one.act.order) !== essence(one));
  if (missing) return `act ${missing.act.order} (${missing.list}, ${missing.act.at})`;
  if (whole.closed !== undefined && whole.closed !== other.closed) return `that the job was closed at ${whole.closed}`;
  const pictures = new Map(other.photos.map((photo) => [photo.order, photo.picture]));
  const lost = whole.photos.find(({ order, picture }) => picture !== undefined && pictures.get(order) !== picture);
  return lost && `the picture of act ${lost.order}`;
}

// That a later act corrects one is worked out, and nothing that was done. Pictures are compared by themselves, for a phone
// may have them no longer; their type comes with them.
const apart = new Set(['corrected', 'picture', 'type']);

function essence(part: unknown): string {
  return JSON.stringify(part, (key, inner: unknown) => {
    if (apart.has(key)) return undefined;
    return typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner;
  });
}

function withPicturesOf(kept: JobRecord, came: JobRecord): JobRecord {
  const known = new Map(kept.photos.map((photo) => [photo.order, photo]));
  const photos = came.photos.map((photo): RecordPhoto => {
    const { type, picture } = known.get(photo.order) ?? {};
    const isNeeded = photo.picture === undefined && type !== undefined && picture !== undefined;
    return isNeeded ? { ...photo, type, picture } : photo;
  });
  return { ...came, photos };
}

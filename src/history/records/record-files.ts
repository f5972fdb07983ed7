// A record as files of a book's folder `records/`: its text without the pictures, and each picture as a file that opens by
// itself. Both together are what the phone sent, to the last byte.

import type { JobRecord, RecordPhoto } from '../../model/job-record.js';

/** The endings of pictures by their media type. One of another type stays inside the record. */
const endings: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/gif': 'gif',
  'image/heic': 'heic',
  'image/heif': 'heif',
  'image/avif': 'avif',
};

/** A record's own name, without ending; the same for every state of it: day, procedure, id. */
export function recordStem({ begun, begunBy, id }: Pick<JobRecord, 'begun' | 'begunBy' | 'id'>): string {
  return `${begun.slice(0, 10)}-${begunBy.procedure}-${id}`;
}

/** What every name of a file of this record has before its ending: the id is nowhere else. */
export function belongsTo(name: string, id: string): boolean {
  return name.endsWith(`-${id}.json`);
}

export interface RecordFiles {
  /** The name of the record's own file. */
  readonly name: string;
  readonly text: string;
  /** By name. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
}

/** The files of a record; the same record gives the same bytes. */
export function filesOfRecord(record: JobRecord): RecordFiles {
  const stem = recordStem(record);
  const pictures = new Map<string, Uint8Array>();
  const photos = record.photos.map((photo): RecordPhoto => {
    const name = pictureName(stem, photo);
    const bytes = name === undefined ? undefined : bytesOf(photo);
    if (name === undefined || bytes === undefined) return photo;
    pictures.set(name, bytes);
    const { picture: _, ...rest } = photo;
    return rest;
  });
  return { name: `${stem}.json`, text: `${JSON.stringify({ ...record, photos }, null, 2)}\n`, pictures };
}

/** Which picture files a record as it is kept may have, by the order of the photo. */
export function pictureNames(record: JobRecord): ReadonlyMap<number, string> {
  const stem = recordStem(record);
  return new Map(
    record.photos.flatMap((photo) => {
      const name = pictureName(stem, photo);
      return photo.picture === undefined && name !== undefined ? [[photo.order, name] as const] : [];
    }),
  );
}

/** A record as it is kept with its pictures inside again; `pictures` are their bytes by the order of the photo. */
export function withPictures(record: JobRecord, pictures: ReadonlyMap<number, Uint8Array>): JobRecord {
  const photos = record.photos.map((photo): RecordPhoto => {
    const bytes = pictures.get(photo.order);
    return bytes === undefined ? photo : { ...photo, picture: dataUrl(photo.type, bytes) };
  });
  return { ...record, photos };
}

function pictureName(stem: string, { order, type }: RecordPhoto): string | undefined {
  const ending = endings[type];
  return ending && `${stem}-photo-${order}.${ending}`;
}

// only where the bytes give back the very same text
function bytesOf({ type, picture }: RecordPhoto): Uint8Array | undefined {
  const start = `data:${type};base64,`;
  if (picture === undefined || !picture.startsWith(start)) return undefined;
  const bytes = new Uint8Array(Buffer.from(picture.slice(start.length), 'base64'));
  return dataUrl(type, bytes) === picture ? bytes : undefined;
}

function dataUrl(type: string, bytes: Uint8Array): string {
  return `data:${type};base64,${Buffer.from(bytes).toString('base64')}`;
}

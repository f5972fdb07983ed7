// The folder `records/` of a book: records as they are kept, each with the pictures beside it.

import { join } from 'node:path';
import { belongsTo, filesOfRecord, pictureNames, withPictures } from '../history/records/record-files.js';
import { readFileText } from '../history/records/record-text.js';
import type { WrongPages } from '../history/records/wrong-pages.js';
import { isFolder, namesIn, readBytes, readTextFile, recordsFolder, writeWholeFile } from '../io.js';
import type { JobRecord } from '../model/job-record.js';
import { shapeFault } from './shapes.js';

/** A file as what it holds, or why it holds nothing that can be used and what to do. */
export type OpenedFile =
  | { readonly kind: 'record'; readonly record: JobRecord }
  | { readonly kind: 'wrong-pages'; readonly list: WrongPages }
  | { readonly kind: 'none'; readonly message: string; readonly help: string };

const sendAgain = 'Have it sent again from the phone.';
const faults = {
  empty: { message: 'The file is empty', help: sendAgain },
  'cut-off': { message: 'The file is no whole JSON: it was cut off on its way, or edited', help: sendAgain },
  table: {
    message: 'This is the table of a record, which is for a spreadsheet',
    help: 'Import the file of the same job whose name ends in `.json.txt` or `.json`.',
  },
  other: {
    message: 'This is no record of a job',
    help: 'Leave it out: records are the files that a phone shares of a job.',
  },
} as const;

/** What a text holds, held against its schema. */
export function openRecordText(text: string): OpenedFile {
  const found = readFileText(text);
  if (found.kind === 'later') {
    return {
      kind: 'none',
      message: `This record is of a later shape (${found.version}) than this program knows`,
      help: 'Update stepgauge, then import it again.',
    };
  }
  if (found.kind !== 'record' && found.kind !== 'wrong-pages') return { kind: 'none', ...faults[found.kind] };
  const fault = shapeFault(found.kind === 'record' ? 'job-record' : 'job-wrong-pages', found.data);
  if (fault !== undefined) {
    return {
      kind: 'none',
      message: `It has not the shape of a record: ${fault}`,
      help: fault.includes(' a key ')
        ? 'Update stepgauge; if it is up to date, somebody edited the file: import the one that was sent.'
        : `${sendAgain} If somebody edited the file, import the one that was sent.`,
    };
  }
  return found.kind === 'record'
    ? { kind: 'record', record: found.data as JobRecord }
    : { kind: 'wrong-pages', list: found.data as WrongPages };
}

/** The folder of a book's records, and the names of the files in it, pictures apart. */
export interface RecordStore {
  readonly folder: string;
  readonly names: readonly string[];
}

/** The records folder of a book as it is now. */
export function openStore(book: string): RecordStore {
  const folder = join(book, recordsFolder);
  return { folder, names: namesIn(folder, '.json') };
}

/** The path of what is kept of a record, whatever day and procedure its name says; undefined where there is none. */
export function keptPath({ folder, names }: RecordStore, id: string): string | undefined {
  const name = names.find((one) => belongsTo(one, id));
  return name === undefined ? undefined : join(folder, name);
}

/** What is kept in a file, with its pictures inside. */
export function openKept({ folder }: RecordStore, path: string): OpenedFile {
  const opened = openRecordText(readTextFile(path));
  if (opened.kind !== 'record') return opened;
  const pictures = [...pictureNames(opened.record)].flatMap(([order, name]) => {
    const bytes = readBytes(join(folder, name));
    return bytes ? [[order, bytes] as const] : [];
  });
  return { kind: 'record', record: withPictures(opened.record, new Map(pictures)) };
}

/** Keeps a record: its pictures first, so that the record is there only where all of it is. Gives its path. */
export function keepRecord(
  { folder }: RecordStore,
  record: JobRecord,
): { readonly path: string; readonly pictures: number } {
  const { name, text, pictures } = filesOfRecord(record);
  for (const [picture, bytes] of pictures) writeWholeFile(join(folder, picture), bytes);
  writeWholeFile(join(folder, name), text);
  return { path: join(folder, name), pictures: pictures.size };
}

/** Keeps a text of its own name, unless it is there. */
export function keepText(
  { folder }: RecordStore,
  name: string,
  text: string,
): { readonly path: string; readonly isNew: boolean } {
  const path = join(folder, name);
  const isNew = isFolder(path) === undefined;
  if (isNew) writeWholeFile(path, text);
  return { path, isNew };
}

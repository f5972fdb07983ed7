// `stepgauge records import`: records that phones sent back, held against the book and kept beside it. Of each file all is
// taken or nothing.

import { checkRecord, type Objection } from '../history/records/check-record.js';
import { actsOf, compareStates } from '../history/records/record-acts.js';
import { checkWrongPages, wrongPagesFile } from '../history/records/wrong-pages.js';
import { FileProblem, isFolder, readTextFile } from '../io.js';
import type { JobRecord } from '../model/job-record.js';
import { type OpenedBook, openKnownBook } from './known-book.js';
import { Misuse } from './misuse.js';
import { keepRecord, keepText, keptPath, openKept, openRecordText, openStore } from './record-store.js';
import type { Terminal } from './terminal.js';

export interface RecordsImportOptions {
  readonly book?: string;
}

/** What became of one file. */
interface Outcome {
  readonly kind: 'imported' | 'amended' | 'there' | 'refused';
  /** What is said of it, the first line behind its name. */
  readonly lines: readonly string[];
}

/** Gives the exit code: 0 where nothing was refused, 1 where something was or the book has errors. */
export function runRecordsImport(files: readonly string[], options: RecordsImportOptions, terminal: Terminal): number {
  if (files.length === 0) throw new Misuse('No file to import: name the files that came from phones');
  const book = openKnownBook(options.book, terminal);
  if (!book) return 1;
  const counts = { imported: 0, amended: 0, there: 0, refused: 0 };
  for (const file of files) {
    const { kind, lines } = importFile(file, book);
    counts[kind] += 1;
    const [first = '', ...rest] = lines;
    terminal.out([`${words[kind].padEnd(13)} ${file}: ${first}`, ...rest.map((line) => `    ${line}`), ''].join('\n'));
  }
  const said = Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([kind, count]) => `${count} ${words[kind as Outcome['kind']]}`);
  terminal.out(`${said.join(', ')}\n`);
  return counts.refused > 0 ? 1 : 0;
}

const words: Readonly<Record<Outcome['kind'], string>> = {
  imported: 'imported',
  amended: 'amended',
  there: 'there already',
  refused: 'refused',
};

function importFile(file: string, book: OpenedBook): Outcome {
  let text: string;
  try {
    if (isFolder(file)) return refused([{ message: 'This is a folder', help: 'Name the files in it.' }]);
    text = readTextFile(file);
  } catch (problem) {
    if (!(problem instanceof FileProblem)) throw problem;
    return refused([{ message: problem.message, help: 'Check its name, and whether this user may read it.' }]);
  }
  const opened = openRecordText(text);
  if (opened.kind === 'none') return refused([opened]);
  if (opened.kind === 'record') return importRecord(opened.record, book);
  const objections = checkWrongPages(opened.list, book);
  if (objections.length > 0) return refused(objections);
  const { name, text: kept } = wrongPagesFile(opened.list);
  const { path, isNew } = keepText(openStore(book.folder), name, kept);
  return {
    kind: isNew ? 'imported' : 'there',
    lines: [`${path}, ${counted(opened.list.reports.length, 'page')} found wrong`],
  };
}

function refused(objections: readonly Objection[]): Outcome {
  const [first, ...rest] = objections.map(({ message, help }) => [message, `help: ${help}`]);
  return { kind: 'refused', lines: [...(first ?? []), ...rest.flat()] };
}

function importRecord(record: JobRecord, book: OpenedBook): Outcome {
  const { objections, notes } = checkRecord(record, book);
  if (objections.length > 0) return refused(objections);
  const said = notes.map((note) => `note: ${note}`);
  const store = openStore(book.folder);
  const path = keptPath(store, record.id);
  if (path === undefined) {
    const kept = keepRecord(store, record);
    return { kind: 'imported', lines: [`${kept.path}${withPictureCount(kept.pictures)}${openWords(record)}`, ...said] };
  }
  const kept = openKept(store, path);
  if (kept.kind !== 'record') {
    const help = `Bring \`${path}\` back as it was, or take it out of the folder, then import again.`;
    return refused([
      {
        message: `What is kept of this job cannot be read any more: ${kept.kind === 'none' ? kept.message : 'it is no record'}`,
        help,
      },
    ]);
  }
  const standing = compareStates(kept.record, record);
  if (standing.kind === 'other') {
    return refused([
      {
        message: `Of this job \`${path}\` holds what this file has not, or has otherwise: ${standing.missing}`,
        help: 'A later state of a record holds all that an earlier one did. Keep both files, and ask whose phone this came from.',
      },
    ]);
  }
  if (standing.kind !== 'more') {
    return {
      kind: 'there',
      lines: [`${path}${standing.kind === 'earlier' ? ', in a later state than this one' : ''}`],
    };
  }
  const more = actsOf(record).length - actsOf(kept.record).length;
  const written = keepRecord(store, standing.record);
  return {
    kind: 'amended',
    lines: [
      `${written.path}, ${more > 0 ? `${counted(more, 'more act', 'more acts')}` : 'more of the same acts'}${openWords(record)}`,
      ...said,
    ],
  };
}

function openWords({ state }: JobRecord): string {
  return state === 'open' ? '; the job is open, and may go on' : '';
}

function withPictureCount(count: number): string {
  return count === 0 ? '' : `, ${counted(count, 'picture')}`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

// All files of a book into one model, and every fault of their form. What a name stands for is looked at by rules.

import { byPlace, compareText, type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { Book } from '../model/book.js';
import { type Keep, keepNothing } from '../text/keep.js';
import type { SourceFile } from '../text/source.js';
import { fileAt, sharedFiles } from './build/files.js';
import { readProcedures } from './build/procedures.js';
import { readShared } from './build/shared.js';

export interface ReadOptions {
  /** Files that are there and are no text: they were reported when they were opened. */
  readonly unreadable?: ReadonlySet<string>;
  /** What was read before. */
  readonly keep?: Keep;
}

/**
 * Reads a book: its files by path (with `/`, relative to the book) and the paths below `figures/`. A file with faults
 * leaves the others going. The book is missing only where it has no book.yaml. Of shared files the book holds what could
 * be understood, of procedures only whole ones; `unread` says which files are not whole, and nothing that uses one of
 * them is proved. With `keep`, parts of the book that are the same as before are the very same objects.
 */
export function readBook(
  sources: ReadonlyMap<string, SourceFile>,
  figures: ReadonlySet<string>,
  { unreadable = new Set(), keep = keepNothing }: ReadOptions = {},
): Findings<Book | undefined> {
  const sorted = new Map([...sources].sort(([a], [b]) => compareText(a, b)));
  const shared = readShared(sorted, keep);
  if (!shared) return { value: undefined, diagnostics: unreadable.has('book.yaml') ? [] : [missingBook()] };
  const read = readProcedures(sorted, { ...shared.known, keep });
  const diagnostics = [...unknownFiles(sorted), ...shared.diagnostics, ...read.diagnostics].sort(byPlace);
  const unread = new Set([...shared.unread, ...read.unread, ...unreadable]);
  const names = { figures: keepNames(keep, 'figures', figures), unread: keepNames(keep, 'unread', unread) };
  return { value: { ...shared.parts, procedures: read.procedures, ...names }, diagnostics };
}

function keepNames(keep: Keep, slot: string, names: ReadonlySet<string>): ReadonlySet<string> {
  return keep(slot, [...names].sort(compareText), () => names);
}

function missingBook(): Diagnostic {
  return diagnose({
    code: 'missing-book',
    severity: 'error',
    message: 'There is no `book.yaml`, which says whose book this is',
    at: { file: 'book.yaml', start: 0, end: 0 },
    help: 'Write one, or begin a book with `stepgauge new book ID`.',
  });
}

function unknownFiles(sources: ReadonlyMap<string, SourceFile>): readonly Diagnostic[] {
  return [...sources.values()]
    .filter(({ path }) => fileAt(path).kind === 'unknown')
    .map(({ path, text }) => {
      const near = nearestNames(path, sharedFiles);
      return diagnose({
        code: 'unknown-file',
        severity: 'warning',
        message: `\`${path}\` is no file of a book, and is not read`,
        at: { file: path, start: 0, end: /^[^\r\n]*/.exec(text)?.[0].length ?? 0 },
        help:
          askWhetherMeant(near) ??
          'Move it to `machines/` or `headers/`, give it the name of a shared file such as `states.yaml`, or take it out.',
      });
    });
}

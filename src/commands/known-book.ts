// A book as far as records are held against it: read and worked out, nothing proved.

import type { Diagnostic } from '../diagnostic/diagnostic.js';
import { renderSummary, renderText } from '../diagnostic/text.js';
import { headerFolder, machineFolder } from '../emit/pages/addresses.js';
import type { KnownBook } from '../history/records/check-record.js';
import type { Book } from '../model/book.js';
import { readBook } from '../read/book.js';
import { resolveBook } from '../resolve/resolve.js';
import { openFolder } from './load.js';
import type { Terminal } from './terminal.js';

export interface OpenedBook extends KnownBook {
  readonly folder: string;
}

/** The book at a path, or the nearest one; undefined where it cannot be read whole, which is printed. */
export function openKnownBook(path: string | undefined, terminal: Terminal): OpenedBook | undefined {
  const { folder, files, figures, unread, diagnostics } = openFolder(path);
  const read = readBook(files, new Set(figures.keys()), { unreadable: unread });
  const errors = [...diagnostics, ...read.diagnostics].filter(({ severity }) => severity === 'error');
  if (read.value && errors.length === 0) {
    const book = read.value;
    return { folder, book, homes: homesOf(book), contents: contentsOf(book) };
  }
  sayErrors(errors, files, terminal);
  terminal.err(`Records are held against their book: mend \`${folder}\` first.\n`);
  return undefined;
}

function sayErrors(
  errors: readonly Diagnostic[],
  sources: ReturnType<typeof openFolder>['files'],
  terminal: Terminal,
): void {
  terminal.err(renderText(errors, sources, { color: terminal.color }));
  terminal.err(`${renderSummary(errors, { color: terminal.color })}\n`);
}

function homesOf({ machines, headers, settings: { languages } }: Book): KnownBook['homes'] {
  return new Map(
    [...machines.keys()].flatMap((machine) =>
      [...headers.keys()].map((header) => [
        `${machineFolder(machine, languages)}${headerFolder(header)}`,
        { machine, header },
      ]),
    ),
  );
}

// where the book has other faults these stay unknown, and are not asked for
function contentsOf(book: Book): KnownBook['contents'] {
  const { value, diagnostics } = resolveBook(book);
  const contents = new Map<string, Set<string>>();
  if (diagnostics.some(({ severity }) => severity === 'error')) return contents;
  for (const { procedure, hash } of value.variants) {
    contents.set(procedure.id, (contents.get(procedure.id) ?? new Set()).add(hash));
  }
  return contents;
}

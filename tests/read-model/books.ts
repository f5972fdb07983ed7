// Little books for tests: a base book with some files changed, and the diagnostics of reading it as one line each.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import type { Book } from '../../src/model/book.js';
import { readBook } from '../../src/read/book.js';
import { lineStarts, positionOf } from '../../src/text/lines.js';
import { filesOf } from '../rules/page.js';

export type Files = ReadonlyMap<string, string>;

/** The format's own examples, letter by letter. */
export const formatFiles: Files = filesIn(readFileSync(join(import.meta.dirname, 'format.txt'), 'utf8'));

/** Files written one behind the other, each below a line with its path. A formatter leaves them as they are. */
function filesIn(text: string): Files {
  return new Map(
    text
      .split(/^=== /m)
      .slice(1)
      .map((part): [string, string] => {
        const end = part.indexOf('\n');
        return [part.slice(0, end), part.slice(end + 1)];
      }),
  );
}

/** The book that the pages of rules change. */
export const baseFiles: Files = filesOf(join(import.meta.dirname, '../books/base'));

/** What reading gives. Throws where there is no book. */
export function read(files: Files): { readonly book: Book; readonly diagnostics: readonly Diagnostic[] } {
  const { value, diagnostics } = readBook(sourcesOf(files), new Set());
  if (!value) throw new Error('no book was read');
  return { book: value, diagnostics };
}

export function sourcesOf(files: Files): ReadonlyMap<string, { readonly path: string; readonly text: string }> {
  return new Map([...files].map(([path, text]) => [path, { path, text }]));
}

/** `header.yaml:2:1-2:4 unknown-key`: file, line and column of start and end, code. */
export function placesOf(diagnostics: readonly Diagnostic[], files: Files): readonly string[] {
  return diagnostics.map(({ at, code }) => {
    const starts = lineStarts(files.get(at.file) ?? '');
    const [start, end] = [positionOf(starts, at.start), positionOf(starts, at.end)];
    return `${at.file}:${start.line}:${start.column}-${end.line}:${end.column} ${code}`;
  });
}

/** The text that a diagnostic underlines. */
export function underlined({ at }: Diagnostic, files: Files): string {
  return (files.get(at.file) ?? '').slice(at.start, at.end);
}

/** A file's text with one part replaced. Throws where the part does not stand there exactly once. */
export function changed(text: string, from: string, to: string): string {
  const parts = text.split(from);
  if (parts.length !== 2) throw new Error(`\`${from}\` stands ${parts.length - 1} times`);
  return parts.join(to);
}

/** Only what counts: errors and warnings. */
export function withoutHints(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  return diagnostics.filter(({ severity }) => severity !== 'hint');
}

/** The format's examples as a book of one language, which reads without a word. */
export const englishFiles: Files = new Map([
  ...formatFiles,
  ['book.yaml', changed(formatFiles.get('book.yaml') ?? '', 'languages: [en, es]', 'languages: [en]')],
  ['terms.yaml', changed(formatFiles.get('terms.yaml') ?? '', ', es: cabezal maicero', '')],
]);

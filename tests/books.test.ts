// Whole little books with marks in place: every diagnostic needs a mark on its line, and every mark a diagnostic.
// A mark is `error: [code]` or `warning: [code]` in a comment; a book without marks says `expect: none` in its first line.
// Each book is checked again with its files in another order and with Windows line ends: the same comes out.

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../src/compile.js';
import type { Diagnostic } from '../src/diagnostic/diagnostic.js';
import { lineStarts, positionOf } from '../src/text/lines.js';
import { filesOf } from './rules/page.js';

const folder = join(import.meta.dirname, 'books');
const base = filesOf(join(folder, 'base'));

function filesOfBook(name: string): ReadonlyMap<string, string> {
  const own = filesOf(join(folder, name));
  const isWhole = own.has('book.yaml');
  return isWhole ? own : new Map([...base, ...own]);
}

function check(files: ReadonlyMap<string, string>): readonly Diagnostic[] {
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  return checkBook({ sources, figures: new Set(), today: '2026-11-24' }).diagnostics;
}

/** `path:line severity code`, hints left out. */
function said(diagnostics: readonly Diagnostic[], files: ReadonlyMap<string, string>): readonly string[] {
  return diagnostics
    .filter(({ severity }) => severity !== 'hint')
    .map(({ at, severity, code }) => {
      const { line } = positionOf(lineStarts(files.get(at.file) ?? ''), at.start);
      return `${at.file}:${line} ${severity} ${code}`;
    })
    .sort();
}

function marked(files: ReadonlyMap<string, string>): readonly string[] {
  return [...files]
    .flatMap(([path, text]) =>
      text
        .split('\n')
        .flatMap((line, i) =>
          [...line.matchAll(/\b(error|warning): \[([a-z-]+)\]/g)].map(
            ([, severity, code]) => `${path}:${i + 1} ${severity} ${code}`,
          ),
        ),
    )
    .sort();
}

for (const name of readdirSync(folder).sort()) {
  describe(`the book ${name}`, () => {
    const files = filesOfBook(name);

    it('reports what is marked, where it is marked', () => {
      const marks = marked(files);
      if (marks.length === 0)
        expect([...filesOf(join(folder, name)).values()].some((text) => text.includes('expect: none'))).toBe(true);
      expect(said(check(files), files)).toEqual(marks);
    });

    it('says the same whatever the order of files and the line ends', () => {
      const shuffled = new Map([...files].reverse());
      expect(check(shuffled)).toEqual(check(files));
      const windows = new Map([...files].map(([path, text]) => [path, text.replaceAll('\n', '\r\n')]));
      expect(said(check(windows), windows)).toEqual(said(check(files), files));
    });
  });
}

// A small book with something wrong in it, and what the checker says of it, for properties that hold whatever is wrong.

import { join } from 'node:path';
import { checkBook } from '../src/compile.js';
import type { Diagnostic } from '../src/diagnostic/diagnostic.js';
import { filesOf } from './rules/page.js';

export type Files = ReadonlyMap<string, string>;

export const base: Files = filesOf(join(import.meta.dirname, 'books/base'));
export const procedure = 'sensors/learn-height-range.md';

/** What the checker says, each message with its line. */
export function diagnosticsOf(files: Files): readonly (Diagnostic & { readonly line: number })[] {
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  const { diagnostics } = checkBook({ sources, figures: new Set(), today: '2026-11-24' });
  return diagnostics.map((one) => ({
    ...one,
    line: files.get(one.at.file)?.slice(0, one.at.start).split('\n').length ?? 0,
  }));
}

/** The base book with something wrong: a line of its procedure left out, and perhaps a word of another line changed. */
export function damaged(line: number, [from, to]: readonly [string, string]): Files {
  const lines = (base.get(procedure) ?? '').split('\n');
  lines.splice(1 + (line % (lines.length - 2)), 1);
  return new Map([...base, [procedure, lines.join('\n').replace(from, to)]]);
}

export const slips = [
  ['', ''],
  ['sets: { header: raised }', 'sets: { header: on-ground }'],
  ['limits: header.on_ground', 'limits: header.on_groud'],
  ['id: read-raised\n', 'id: read-raised\n    at: under-header\n'],
  ['go: void', 'go: viod'],
] as const;

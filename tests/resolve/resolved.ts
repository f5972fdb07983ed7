// The little base book with some of its files changed, read and worked out: what tests of this phase look at.

import { join } from 'node:path';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import type { ResolvedBook, ResolvedProcedure, Variant } from '../../src/model/resolved.js';
import { readBook } from '../../src/read/book.js';
import { resolveBook } from '../../src/resolve/resolve.js';
import { filesOf } from '../rules/page.js';

const base = filesOf(join(import.meta.dirname, '../books/base'));

/** Texts by path: a whole file, or what is replaced by what in a file of the base book. */
export type Changes = Readonly<Record<string, string | readonly (readonly [string, string])[]>>;

export interface Worked {
  readonly book: ResolvedBook;
  readonly diagnostics: readonly Diagnostic[];
  /** What the reader said, which is none of this phase's business. */
  readonly read: readonly Diagnostic[];
  /** `code: the text at its place`, for each diagnostic. */
  readonly found: readonly string[];
}

/** Texts of the base book with changes. Throws where a text to be replaced does not stand there once. */
export function filesWith(changes: Changes): ReadonlyMap<string, string> {
  const files = new Map(base);
  for (const [path, change] of Object.entries(changes)) {
    if (typeof change === 'string') files.set(path, change);
    else for (const [from, to] of change) files.set(path, replaceOnce(files.get(path) ?? '', from, to));
  }
  return files;
}

function replaceOnce(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new Error(`Expected once: ${from}`);
  return text.replace(from, () => to);
}

/** Reads and works out the base book with changes. */
export function workOut(changes: Changes = {}, rig?: string): Worked {
  return workOutFiles(filesWith(changes), rig);
}

/** Reads and works out a book of these files. */
export function workOutFiles(files: ReadonlyMap<string, string>, rig?: string): Worked {
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  const figures = new Set([...files.keys()].filter((path) => path.startsWith('figures/')));
  const read = readBook(sources, figures);
  if (!read.value) throw new Error(`No book: ${read.diagnostics.map(({ message }) => message).join('; ')}`);
  const { value, diagnostics } = resolveBook(read.value, rig === undefined ? {} : { rig });
  const found = diagnostics.map(({ code, at }) => `${code}: ${files.get(at.file)?.slice(at.start, at.end)}`);
  return { book: value, diagnostics, read: read.diagnostics, found };
}

/** The variants of one procedure. */
export function variantsOf({ book }: Worked, id: string): readonly Variant[] {
  return book.variants.filter(({ procedure }) => procedure.id === id);
}

/** The one variant of a procedure that a machine has. */
export function procedureFor(worked: Worked, id: string, machine: string): ResolvedProcedure {
  const found = variantsOf(worked, id).filter(({ rigs }) => rigs.some((rig) => rig.machine === machine));
  const [variant] = found;
  if (!variant || found.length > 1) throw new Error(`${found.length} variants of ${id} for ${machine}`);
  return variant.procedure;
}

/** The path of the base book's one procedure. */
export const learn = 'sensors/learn-height-range.md';

/** A text with plain spaces where number and unit are joined. */
export function plain(text: string): string {
  return text.replaceAll('\u00a0', ' ');
}

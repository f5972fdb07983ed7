// The only place that touches files: a book's folder as texts and pictures, and folders written whole.

import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { cwd } from 'node:process';
import type { Diagnostic } from './diagnostic/diagnostic.js';
import {
  emptyFile,
  fileTooLarge,
  notText,
  reasonOf,
  sameNames,
  unreadAmongKept,
  unreadableFile,
  unreadEnding,
} from './io/faults.js';
import { FileProblem, problemOf } from './io/problem.js';
import { type FoundFile, walkFolder } from './io/walk.js';
import { decodeText } from './text/decode.js';
import type { SourceFile } from './text/source.js';

export { FileProblem } from './io/problem.js';
export { isFolder, namesIn, readBytes, readTextFile, readTexts } from './io/read.js';
export { watchFolder } from './io/watch.js';
export { rewriteText, writeFolder, writeNewFile, writeNewFolder, writeWholeFile } from './io/write.js';

/** Bytes of a text file at most: the largest real one has some thousands. */
const largestText = 2_000_000;
/** Bytes of a figure at most. */
const largestFigure = 10_000_000;

/** The folder of a book that holds its releases. */
export const releasesFolder = 'releases';
/** The folder of a book that holds the records of jobs that were sent back. They are never in what is built. */
export const recordsFolder = 'records';

/** What these folders hold is no part of the book as it is. */
const keptFolders = [releasesFolder, recordsFolder];

/** A book's folder as it was read. Paths are relative to it, with `/`, in code-unit order. */
export interface BookFolder {
  /** Why there is no book at all, as one sentence; then all else is empty. */
  readonly missing?: string;
  readonly files: ReadonlyMap<string, SourceFile>;
  /** Everything below `figures/`. */
  readonly figures: ReadonlyMap<string, Uint8Array>;
  /** Files of the book that are there but could not be read: what uses them is not proved. */
  readonly unread: ReadonlySet<string>;
  readonly diagnostics: readonly Diagnostic[];
}

/** The nearest folder from `start` upward with a `book.yaml`, else `procedures/` in `start`; relative to `start`. */
export function findBook(start: string = cwd()): string | undefined {
  const from = resolve(start);
  for (let folder = from; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'book.yaml'))) return relative(from, folder) || '.';
    if (dirname(folder) === folder) break;
  }
  return existsSync(join(from, 'procedures', 'book.yaml')) ? 'procedures' : undefined;
}

/** Reads the texts (`.yaml`, `.md`) and the figures of a book. Hidden files and built output are passed over. */
export function readBookFolder(folder: string): BookFolder {
  const missing = whyMissing(folder);
  const files = new Map<string, SourceFile>();
  const figures = new Map<string, Uint8Array>();
  const unread = new Set<string>();
  if (missing !== undefined) return { missing, files, figures, unread, diagnostics: [] };
  const walk = walkFolder(folder);
  const diagnostics = [...walk.diagnostics];
  const note = (path: string, diagnostic: Diagnostic): void => {
    diagnostics.push(diagnostic);
    unread.add(path);
  };
  for (const found of walk.files) {
    const { path } = found;
    const kept = keptFolders.find((folder) => path.startsWith(`${folder}/`));
    if (path.startsWith('figures/')) {
      const bytes = readBytes(found, largestFigure, note);
      if (bytes) figures.set(path, bytes);
    } else if (kept !== undefined) {
      if (/\.(?:yaml|yml|md)$/i.test(path)) diagnostics.push(unreadAmongKept(path, kept));
    } else if (/\.(?:yaml|md)$/.test(path)) {
      const bytes = readBytes(found, largestText, note);
      const text = bytes && textOf(path, bytes, note);
      if (text !== undefined) files.set(path, { path, text });
    } else {
      const expected = /\.(?:yml|yaml)$/i.test(path)
        ? '.yaml'
        : /\.(?:markdown|mdown|md)$/i.test(path)
          ? '.md'
          : undefined;
      if (expected) diagnostics.push(unreadEnding(path, expected));
    }
  }
  for (const { at } of walk.diagnostics) unread.add(at.file);
  diagnostics.push(...collisions([...files.keys(), ...figures.keys()]));
  return { files, figures, unread, diagnostics };
}

/** Every file below a folder, by its path in it. Throws where the folder cannot be read. */
export function readTree(folder: string): ReadonlyMap<string, Uint8Array> {
  try {
    statSync(folder);
    return new Map(walkFolder(folder).files.map(({ path, place }) => [path, readFileSync(place)]));
  } catch (error) {
    throw problemOf(error, `\`${folder}\` cannot be read`);
  }
}

function whyMissing(folder: string): string | undefined {
  const found = statOf(folder);
  if (found instanceof Error) return `\`${folder}\` cannot be read: ${reasonOf(found)}`;
  if (!found) return `There is no folder \`${folder}\``;
  if (!found.isDirectory()) return `\`${folder}\` is no folder: name the folder of the book`;
  if (!existsSync(join(folder, 'book.yaml'))) return `\`${folder}\` is no book: it has no \`book.yaml\``;
  return undefined;
}

function statOf(path: string): ReturnType<typeof statSync> | undefined | Error {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    return error instanceof Error ? error : new FileProblem(String(error));
  }
}

type Note = (path: string, diagnostic: Diagnostic) => void;

function readBytes(found: FoundFile, most: number, note: Note): Uint8Array | undefined {
  if (found.size > most) {
    note(found.path, fileTooLarge(found.path, { bytes: found.size, most }));
    return undefined;
  }
  try {
    return readFileSync(found.place);
  } catch (error) {
    note(found.path, unreadableFile(found.path, reasonOf(error)));
    return undefined;
  }
}

function textOf(path: string, bytes: Uint8Array, note: Note): string | undefined {
  const decoded = decodeText(bytes);
  if (decoded.kind !== 'text') {
    note(path, notText(path, decoded));
    return undefined;
  }
  if (decoded.text.trim() === '') {
    note(path, emptyFile(path));
    return undefined;
  }
  return decoded.text;
}

/** Paths that a disk which ignores capitals, or joins accents to letters, cannot tell apart. */
function collisions(paths: readonly string[]): readonly Diagnostic[] {
  const seen = new Map<string, string>();
  const diagnostics: Diagnostic[] = [];
  for (const path of paths) {
    const plain = path.normalize('NFC').toLowerCase();
    const other = seen.get(plain);
    if (other === undefined) seen.set(plain, path);
    else diagnostics.push(sameNames(path, other));
  }
  return diagnostics;
}

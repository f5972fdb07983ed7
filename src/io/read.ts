// Single files that a call names, and small texts of one kind in a folder.

import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { compareText } from '../diagnostic/diagnostic.js';
import { problemOf } from './problem.js';

/** Whether there is a folder of that name, a file, or nothing. */
export function isFolder(path: string): boolean | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false })?.isDirectory();
  } catch (error) {
    throw problemOf(error, `\`${path}\` cannot be read`);
  }
}

/** A file as text in UTF-8. Throws `FileProblem` where it cannot be read. */
export function readTextFile(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw problemOf(error, `\`${path}\` cannot be read`);
  }
}

/** The bytes of a file; undefined where there is none. */
export function readBytes(path: string): Uint8Array | undefined {
  if (!existsSync(path)) return undefined;
  try {
    return readFileSync(path);
  } catch (error) {
    throw problemOf(error, `\`${path}\` cannot be read`);
  }
}

/** The names of the files of a folder that end so, in code-unit order; none where there is no such folder. */
export function namesIn(folder: string, ending: string): readonly string[] {
  if (!existsSync(folder)) return [];
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith(ending) && !name.startsWith('.'));
    return names.sort(compareText);
  } catch (error) {
    throw problemOf(error, `\`${folder}\` cannot be read`);
  }
}

/** The same files as texts, by name. */
export function readTexts(folder: string, ending: string): ReadonlyMap<string, string> {
  return new Map(namesIn(folder, ending).map((name) => [name, readTextFile(join(folder, name))]));
}

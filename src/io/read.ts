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

/** The files of a folder whose names end so, by name, in code-unit order; none where there is no such folder. */
export function readTexts(folder: string, ending: string): ReadonlyMap<string, string> {
  if (!existsSync(folder)) return new Map();
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith(ending) && !name.startsWith('.'));
    return new Map(names.sort(compareText).map((name) => [name, readTextFile(join(folder, name))]));
  } catch (error) {
    throw problemOf(error, `\`${folder}\` cannot be read`);
  }
}

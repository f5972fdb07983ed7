// Files that come with the program: pages of the rules, schemas, the files that `new` starts from, what runs in the browser.

import { join } from 'node:path';
import { readTree } from '../io.js';

/** The root of the package: `dist/commands/` lies two folders below it. */
const packageRoot = join(import.meta.dirname, '../..');

export type PackageFolder = 'dist/rule-pages' | 'dist/starter' | 'dist/site' | 'dist/card-fonts' | 'schema';

/** The files of a folder of the package, by their path in it. */
export function packageFiles(folder: PackageFolder): ReadonlyMap<string, Uint8Array> {
  return readTree(join(packageRoot, folder));
}

/** The same, as text. */
export function packageTexts(folder: PackageFolder): ReadonlyMap<string, string> {
  const decoder = new TextDecoder();
  return new Map([...packageFiles(folder)].map(([path, bytes]) => [path, decoder.decode(bytes)]));
}

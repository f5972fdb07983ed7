// The files below a folder, always in the same order, without following a link out of it or in a circle.

import { type Dirent, existsSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { isAbsolute, join, relative, sep } from 'node:path';
import { compareText, type Diagnostic } from '../diagnostic/diagnostic.js';
import { foldersTooDeep, linkedFolder, linkOutOfBook, reasonOf, unreadableFile } from './faults.js';
import { marker } from './write.js';

/** `path` is relative to the walked folder, with `/`; `place` is where to read it. */
export interface FoundFile {
  readonly path: string;
  readonly place: string;
  readonly size: number;
}

export interface Walk {
  readonly files: readonly FoundFile[];
  readonly diagnostics: readonly Diagnostic[];
}

/** More folders inside each other than any book has. */
const deepest = 20;

/** Names that start with a dot are passed over, as are folders that we built, and `node_modules`. */
export function walkFolder(folder: string): Walk {
  const walker: Walker = { root: realpathSync(folder), files: [], diagnostics: [] };
  walkInto(walker, '', 0);
  const files = walker.files.sort((a, b) => compareText(a.path, b.path));
  return { files, diagnostics: walker.diagnostics };
}

interface Walker {
  readonly root: string;
  readonly files: FoundFile[];
  readonly diagnostics: Diagnostic[];
}

function walkInto(walker: Walker, folder: string, depth: number): void {
  const entries = attempt(walker, folder || '.', () => readdirSync(join(walker.root, folder), { withFileTypes: true }));
  for (const entry of (entries ?? []).sort((a, b) => compareText(a.name, b.name))) {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    visit(walker, folder === '' ? entry.name : `${folder}/${entry.name}`, { entry, depth });
  }
}

function visit(walker: Walker, path: string, found: { entry: Dirent; depth: number }): void {
  const place = join(walker.root, path);
  if (found.entry.isSymbolicLink()) {
    visitLink(walker, path, place);
  } else if (found.entry.isDirectory()) {
    if (existsSync(join(place, marker))) return;
    if (found.depth >= deepest) walker.diagnostics.push(foldersTooDeep(path, deepest));
    else walkInto(walker, path, found.depth + 1);
  } else if (found.entry.isFile()) {
    const stats = attempt(walker, path, () => statSync(place));
    if (stats) walker.files.push({ path, place, size: stats.size });
  }
}

/** A link is followed only to a file of the book itself. */
function visitLink(walker: Walker, path: string, place: string): void {
  const real = attempt(walker, path, () => realpathSync(place), 'it is a link to something that is not there');
  if (real === undefined) return;
  const stats = attempt(walker, path, () => statSync(real));
  if (!stats) return;
  const inside = relative(walker.root, real).split(sep).join('/');
  if (inside === '..' || inside.startsWith('../') || isAbsolute(inside)) {
    walker.diagnostics.push(linkOutOfBook(path));
  } else if (stats.isDirectory()) {
    const isLoop = inside === '' || path.startsWith(`${inside}/`);
    walker.diagnostics.push(linkedFolder(path, inside === '' ? "the book's own folder" : `\`${inside}\``, isLoop));
  } else if (stats.isFile()) {
    walker.files.push({ path, place: real, size: stats.size });
  }
}

/** What `act` gives; where the system refuses, that is reported. `missing` is said where nothing is there. */
function attempt<T>(walker: Walker, path: string, act: () => T, missing?: string): T | undefined {
  try {
    return act();
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    walker.diagnostics.push(unreadableFile(path, (isMissing ? missing : undefined) ?? reasonOf(error)));
    return undefined;
  }
}

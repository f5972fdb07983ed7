// Which kept pages have another content in the book by now. Found out with signal, when the site says that the set has a
// newer version, and remembered: also without signal a page then says that it is old.

import type { BookStatus } from '../../../src/emit/offline/shapes.js';
import { listName } from '../../../src/emit/offline/shapes.js';
import { Hindered } from './hindered.js';
import { type KeptSet, readSets } from './store.js';

interface Changed {
  /** The version of the site's set that was compared, and of the kept one. */
  readonly latest: string;
  readonly kept: string;
  readonly paths: readonly string[];
}

const key = (root: string): string => `stepgauge-changed ${root}`;

function readChanges(root: string): Readonly<Record<string, Changed>> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key(root)) ?? '{}');
    return typeof kept === 'object' && kept !== null ? (kept as Record<string, Changed>) : {};
  } catch {
    // storage refused: then nothing is kept that could be old
    return {};
  }
}

/** Whether the page at a path comes from a kept set and has another content in the book. */
export async function hasChanged(root: string, path: string): Promise<boolean> {
  const set = await setOf(root, path);
  const change = set && readChanges(root)[set.list.folder];
  return change !== undefined && change.kept === set?.list.version && change.paths.includes(path);
}

/** Compares the set that a page comes from with the one that the site has now, once for each version. */
export async function compareSet(root: string, path: string, status: BookStatus): Promise<void> {
  const set = await setOf(root, path);
  const latest = set && status.sets[set.list.folder]?.[0];
  if (!set || latest === undefined) return;
  const { folder, version } = set.list;
  const { [folder]: before, ...others } = readChanges(root);
  if (latest === version) return before && write(root, others);
  if (before?.latest === latest && before.kept === version) return;
  const paths = await changedPaths(root, set);
  if (paths) write(root, { ...others, [folder]: { latest, kept: version, paths } });
}

async function changedPaths(root: string, { list }: KeptSet): Promise<readonly string[] | undefined> {
  const { fetchList } = await import('./keep-set.js');
  try {
    const now = new Map(
      (await fetchList(root + encodeURI(list.folder) + listName)).files.map(([path, to]) => [path, to]),
    );
    return list.files.filter(([path, digest]) => now.get(path) !== digest).map(([path]) => path);
  } catch (fault) {
    // no signal any more: it is asked again with the next page
    if (fault instanceof Hindered) return undefined;
    throw fault;
  }
}

function write(root: string, changes: Readonly<Record<string, Changed>>): void {
  try {
    localStorage.setItem(key(root), JSON.stringify(changes));
  } catch {
    // storage full: it is found out again with the next page that has signal
  }
}

// a page that no worker answered for came from the site itself
async function setOf(root: string, path: string): Promise<KeptSet | undefined> {
  if (!navigator.serviceWorker?.controller) return undefined;
  const sets = await readSets(root);
  return sets.find(({ list }) => path.startsWith(list.folder) && list.files.some(([name]) => name === path));
}

// What the phone keeps, in the browser's own cache storage: files by their digest, and for each kept home one record that
// says which of them belong together. A record is written last and in one piece: it is what makes a set whole.

import type { KeptFile, SetList } from '../../../src/emit/offline/shapes.js';

/** A home that is kept. */
export interface KeptSet {
  readonly list: SetList;
  /** `Tarn 40 · 12-row header, 20 in rows`. */
  readonly name: string;
  /** When its files were fetched, by the phone's clock (ISO 8601, UTC). */
  readonly keptAt: string;
  /** Scripts and styles of the version before: a page that is still open may ask for them. */
  readonly carried: readonly KeptFile[];
}

const recordsName = (root: string): string => `stepgauge-sets ${root}`;
const filesName = (root: string): string => `stepgauge-files ${root}`;
const recordAddress = (root: string, folder: string): string => `${root}_kept/set/${encodeURI(folder)}`;
const fileAddress = (root: string, digest: string): string => `${root}_kept/file/${digest}`;

/** Every kept home, the one fetched last first. Nothing where none was ever kept. */
export async function readSets(root: string): Promise<readonly KeptSet[]> {
  if (!(await caches.has(recordsName(root)))) return [];
  const records = await caches.open(recordsName(root));
  const found = await Promise.all((await records.keys()).map((key) => records.match(key)));
  const sets = await Promise.all(found.flatMap((response) => response?.json() ?? []));
  return (sets as KeptSet[]).sort((a, b) => (a.keptAt < b.keptAt ? 1 : a.keptAt > b.keptAt ? -1 : 0));
}

/** Makes a set the one that pages are taken from. */
export async function writeSet(root: string, set: KeptSet): Promise<void> {
  const records = await caches.open(recordsName(root));
  await records.put(recordAddress(root, set.list.folder), new Response(JSON.stringify(set)));
}

/** Forgets a home; its files stay until `pruneFiles`. */
export async function forgetSet(root: string, folder: string): Promise<void> {
  const records = await caches.open(recordsName(root));
  await records.delete(recordAddress(root, folder));
}

/** The digests of all files that are there. */
export async function readDigests(root: string): Promise<ReadonlySet<string>> {
  if (!(await caches.has(filesName(root)))) return new Set();
  const files = await caches.open(filesName(root));
  return new Set((await files.keys()).map(({ url }) => url.slice(url.lastIndexOf('/') + 1)));
}

/** A kept file. */
export async function readFile(root: string, digest: string): Promise<Response | undefined> {
  return (await caches.open(filesName(root))).match(fileAddress(root, digest));
}

/** Keeps a file. Rejects with `QuotaExceededError` where there is no room. */
export async function writeFile(root: string, digest: string, content: Response): Promise<void> {
  await (await caches.open(filesName(root))).put(fileAddress(root, digest), content);
}

/** Throws away the files that no kept home needs. */
export async function pruneFiles(root: string): Promise<void> {
  const needed = new Set((await readSets(root)).flatMap(filesOfSet).map(([, digest]) => digest));
  const files = await caches.open(filesName(root));
  const idle = [...(await readDigests(root))].filter((digest) => !needed.has(digest));
  await Promise.all(idle.map((digest) => files.delete(fileAddress(root, digest))));
}

/** All files that a kept home answers for. */
export function filesOfSet({ list, carried }: KeptSet): readonly KeptFile[] {
  return [...list.files, ...carried];
}

/** The path of an address below the root, `index.html` filled in; nothing for an address elsewhere. */
export function pathBelow(root: string, url: string): string | undefined {
  const { origin, pathname } = new URL(url);
  const start = new URL(root);
  if (origin !== start.origin || !pathname.startsWith(start.pathname)) return undefined;
  const path = decoded(pathname.slice(start.pathname.length));
  return path === '' || path.endsWith('/') ? `${path}index.html` : path;
}

// an address with a broken escape is the address of nothing that is kept
function decoded(path: string): string {
  try {
    return decodeURI(path);
  } catch {
    return path;
  }
}

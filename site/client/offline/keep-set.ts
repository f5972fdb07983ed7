// Fetches the set of a home whole or not at all: every file is compared with its digest, and only when all are there does
// the set take the place of the one before.

import type { KeptFile, SetList } from '../../../src/emit/offline/shapes.js';
import { Hindered } from './hindered.js';
import { forgetSet, type KeptSet, pruneFiles, readDigests, readSets, writeFile, writeSet } from './store.js';

export interface Keeping {
  readonly root: string;
  readonly name: string;
  readonly signal: AbortSignal;
  /** Bytes so far, and in all. */
  readonly onProgress: (done: number, all: number) => void;
  /** Asked last: whether the new set may take the place of the old one now. */
  readonly mayTakePlace: () => Promise<boolean>;
  readonly now: () => Date;
}

const atOnce = 4;

/** The list of a home's set as the site has it now. Throws `Hindered`. */
export function fetchList(address: string): Promise<SetList> {
  return inWords(
    fetchFresh(address).then(async (response) => {
      const list = (await response.json()) as SetList;
      if (list.format !== 1) throw new Hindered('mixed');
      return list;
    }),
  );
}

/** Those files of a list that are not on the phone yet, each content once. */
export async function missingFiles(root: string, list: SetList): Promise<readonly KeptFile[]> {
  const here = await readDigests(root);
  return [...new Map(list.files.map((file) => [file[1], file])).values()].filter(([, digest]) => !here.has(digest));
}

/** Fetches what is missing of a set and makes it the kept one. Throws `Hindered`. One window at a time. */
export function keepSet(list: SetList, keeping: Keeping): Promise<void> {
  return alone(keeping.root, async () => {
    try {
      await inWords(fetchSet(list, keeping));
    } catch (fault) {
      // what does not fit is given up, so that the phone has its room back
      if (fault instanceof Hindered && fault.why === 'full') await pruneFiles(keeping.root);
      throw fault;
    }
  });
}

/** Removes a home from the phone, and the files that no other needs. */
export function removeSet(root: string, folder: string): Promise<void> {
  return alone(root, async () => {
    await forgetSet(root, folder);
    await pruneFiles(root);
  });
}

async function fetchSet(list: SetList, keeping: Keeping): Promise<void> {
  const { root, name, onProgress, mayTakePlace, now } = keeping;
  await fetchMissing(list, keeping);
  if ((await missingFiles(root, list)).length > 0) throw new Hindered('full');
  if (!(await mayTakePlace())) throw new Hindered('job');
  onProgress(list.bytes, list.bytes);
  const before = (await readSets(root)).find((set) => set.list.folder === list.folder);
  await writeSet(root, { list, name, keptAt: now().toISOString(), carried: carriedFrom(before, list) });
  await pruneFiles(root);
}

function carriedFrom(before: KeptSet | undefined, list: SetList): readonly KeptFile[] {
  const known = new Set(list.files.map(([path]) => path));
  return (before?.list.files ?? []).filter(([path]) => path.startsWith('assets/') && !known.has(path));
}

async function fetchMissing(list: SetList, { root, signal, onProgress }: Keeping): Promise<void> {
  const missing = [...(await missingFiles(root, list))];
  const all = missing.reduce((sum, [, , bytes]) => sum + bytes, 0);
  let done = 0;
  onProgress(0, all);
  const ended = new AbortController();
  const either = AbortSignal.any?.([signal, ended.signal]) ?? signal;
  const work = async (): Promise<void> => {
    for (let file = missing.shift(); file !== undefined; file = missing.shift()) {
      if (signal.aborted) throw new Hindered('halted');
      await fetchFile(root, file, either);
      done += file[2];
      onProgress(done, all);
    }
  };
  try {
    await Promise.all(Array.from({ length: atOnce }, work));
  } catch (fault) {
    missing.length = 0;
    ended.abort();
    throw signal.aborted ? new Hindered('halted') : fault;
  }
}

async function fetchFile(root: string, [path, digest, bytes]: KeptFile, signal: AbortSignal): Promise<void> {
  const response = await fetchFresh(root + encodeURI(path), signal);
  const content = await response.arrayBuffer();
  if (content.byteLength !== bytes || (await digestOf(content)) !== digest) throw new Hindered('mixed');
  const type = response.headers.get('content-type') ?? 'application/octet-stream';
  await writeFile(root, digest, new Response(content, { headers: { 'content-type': type } }));
}

async function fetchFresh(address: string, signal?: AbortSignal): Promise<Response> {
  const response = await fetch(address, { cache: 'no-store', ...(signal && { signal }) });
  if (response.status === 404 || response.status === 410) throw new Hindered('mixed');
  if (!response.ok) throw new Hindered('away');
  return response;
}

async function digestOf(content: ArrayBuffer): Promise<string> {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', content));
  return Array.from(bytes.subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Turns what the browser throws into why it did not work. */
async function inWords<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (fault) {
    if (fault instanceof Hindered) throw fault;
    const name = fault instanceof Error || fault instanceof DOMException ? fault.name : '';
    if (name === 'QuotaExceededError') throw new Hindered('full');
    if (name === 'AbortError') throw new Hindered('halted');
    if (name === 'SecurityError' || name === 'InvalidStateError') throw new Hindered('refused');
    // `fetch` rejects with a TypeError where nobody answers (WHATWG Fetch); a page to sign in at is no JSON
    if (name === 'TypeError' || name === 'SyntaxError') throw new Hindered('away');
    throw fault;
  }
}

// two windows that fetch and throw away at once would take files from each other
async function alone(root: string, work: () => Promise<void>): Promise<void> {
  if (!('locks' in navigator)) return work();
  await navigator.locks.request(`stepgauge-keep ${root}`, { ifAvailable: true }, async (lock) => {
    if (!lock) throw new Hindered('other');
    await work();
  });
}

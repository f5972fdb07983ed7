// The place on the phone where jobs are kept: an IndexedDB of this site's own. Only opens it, says what went wrong in one of
// five words, and tells other tabs; what stands in it is written by its neighbours.

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from 'idb';
import type { Entry, JobPage, JobState } from './journal.js';

/** A job without its entries. */
export interface JobHead {
  readonly id: string;
  readonly page: JobPage;
  readonly begun: string;
  readonly state: JobState;
  /** When its record last left the phone, as a file or a message. */
  readonly sent?: string;
}

/** An entry as it is kept: `key` only ever grows, whichever tab it comes from. */
export interface KeptEntry {
  readonly key?: number;
  readonly job: string;
  readonly entry: Entry;
}

/** A picture as it is kept: bytes, as some browsers refuse to keep blobs. */
export interface KeptPhoto {
  readonly id: string;
  readonly job: string;
  readonly type: string;
  readonly bytes: ArrayBuffer;
}

/** A page that was found wrong where no job of it was open. */
export interface Report {
  readonly key?: number;
  readonly page: JobPage;
  readonly step?: string;
  readonly text: string;
  readonly at: string;
}

export interface Shape extends DBSchema {
  jobs: { key: string; value: JobHead };
  entries: { key: number; value: KeptEntry; indexes: { order: [string, number] } };
  photos: { key: string; value: KeptPhoto; indexes: { job: string } };
  reports: { key: number; value: Report };
}

const stores = ['jobs', 'entries', 'photos', 'reports'] as const;

/** A transaction that may write to all of it: what is kept together is kept at once. */
export type Writing = IDBPTransaction<Shape, StoreNames<Shape>[], 'readwrite'>;

/**
 * Why something could not be kept: the phone allows no storage, it is full, the job is no longer there (cleared by the phone
 * or deleted in another tab), the job is closed, or anything else.
 */
export type FaultKind = 'refused' | 'full' | 'lost' | 'closed' | 'broken';

/** What every function of storage rejects with. */
export class StoreFault extends Error {
  constructor(
    readonly kind: FaultKind,
    cause?: unknown,
  ) {
    super(`The job could not be kept: ${kind}`, { cause });
  }
}

function nameOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? error.name : '';
}

function faultOf(error: unknown, otherwise: FaultKind): StoreFault {
  if (error instanceof StoreFault) return error;
  return new StoreFault(nameOf(error) === 'QuotaExceededError' ? 'full' : otherwise, error);
}

let connection: Promise<IDBPDatabase<Shape>> | undefined;
let channel: BroadcastChannel | undefined;
/** Called with the id of a job that was changed, and whether by this tab. */
type Watcher = (job: string, isOwn: boolean) => void;

const watchers = new Set<Watcher>();

/** The path of the site's root: two books on one host keep their jobs apart. */
export function siteRoot(): string {
  if (typeof document !== 'undefined') return new URL(document.body.dataset.root ?? '.', location.href).pathname;
  const { registration } = globalThis as { registration?: { scope: string } };
  return registration ? new URL(registration.scope).pathname : '/';
}

function connect(): Promise<IDBPDatabase<Shape>> {
  const forget = (): void => {
    connection = undefined;
  };
  const opening = openDB<Shape>(`stepgauge ${siteRoot()}`, 1, {
    upgrade(db) {
      db.createObjectStore('jobs', { keyPath: 'id' });
      const entries = db.createObjectStore('entries', { keyPath: 'key', autoIncrement: true });
      entries.createIndex('order', ['job', 'key']);
      db.createObjectStore('photos', { keyPath: 'id' }).createIndex('job', 'job');
      db.createObjectStore('reports', { keyPath: 'key', autoIncrement: true });
    },
    // a newer version of the site in another tab must not wait for this one
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      forget();
    },
    terminated: forget,
  });
  opening.catch(forget);
  return opening;
}

async function connected(): Promise<IDBPDatabase<Shape>> {
  // switched off, as in the private windows of some browsers
  if (typeof indexedDB === 'undefined' || !indexedDB) throw new StoreFault('refused');
  try {
    connection ??= connect();
    return await connection;
  } catch (error) {
    throw faultOf(error, 'refused');
  }
}

/** Runs something on the store; whatever goes wrong there comes out as a `StoreFault`. */
export async function withStore<T>(run: (db: IDBPDatabase<Shape>) => Promise<T>): Promise<T> {
  const db = await connected();
  try {
    return await run(db);
  } catch (error) {
    if (nameOf(error) !== 'InvalidStateError') throw faultOf(error, 'broken');
  }
  // the browser closed the connection behind our back and began nothing: once more with a new one
  connection = undefined;
  const again = await connected();
  try {
    return await run(again);
  } catch (error) {
    throw faultOf(error, 'broken');
  }
}

/** Writes in one transaction, all or nothing; resolves when it is on the disk and not only on its way there. */
export async function write<T>(run: (tx: Writing) => Promise<T>): Promise<T> {
  return withStore(async (db) => {
    const tx = db.transaction([...stores], 'readwrite', { durability: 'strict' });
    const work = run(tx).catch((error: unknown) => {
      abort(tx);
      throw error;
    });
    // both are waited for: a full disk may show in either
    const [result] = await Promise.all([work, tx.done]);
    return result;
  });
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // it has ended already, by the same fault
  }
}

/** Calls back with the id of a job that was changed, in this tab or another (`''` for a report); gives back how to stop it. */
export function watchJobs(watcher: Watcher): () => void {
  openChannel();
  watchers.add(watcher);
  return () => void watchers.delete(watcher);
}

/** Tells this tab and all others that a job has changed. */
export function tellChange(job: string): void {
  openChannel()?.postMessage(job);
  for (const watcher of watchers) watcher(job, true);
}

function openChannel(): BroadcastChannel | undefined {
  if (channel || typeof BroadcastChannel === 'undefined') return channel;
  channel = new BroadcastChannel(`stepgauge ${siteRoot()}`);
  channel.onmessage = ({ data }) => {
    for (const watcher of watchers) watcher(String(data), false);
  };
  return channel;
}

/** Lets go of the store and of other tabs. */
export async function closeStore(): Promise<void> {
  channel?.close();
  channel = undefined;
  watchers.clear();
  const open = connection;
  connection = undefined;
  (await open)?.close();
}

/** Sixteen random bytes as text; also where a page is not served securely and `randomUUID` is missing. */
export function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

// Jobs as they are kept: begun, read, closed, amended, deleted. Each in a transaction of its own.

import type { Act, AmendingAct, Amendment, Entry, Job, JobPage } from './journal.js';
import { noteJob, unnoteJob } from './lost.js';
import { type JobHead, newId, StoreFault, tellChange, type Writing, withStore, write } from './store.js';

/** The page's path without its language and what tells versions apart: the same work in every language. */
export function workPath({ path, language }: JobPage): string {
  return path.startsWith(`${language}/`) ? path.slice(language.length + 1) : path;
}

/**
 * Whether two pages are the same work: the procedure, for the same rig, and not on two units that are known to differ. A
 * procedure that was one page and is now several (or the other way round) still is: `…/learn/`, `…/learn/display-4.2/`.
 */
export function isSameWork(a: JobPage, b: JobPage): boolean {
  const [one, other] = [workPath(a), workPath(b)];
  if (isOtherUnit(a, b)) return false;
  return a.procedure === b.procedure && (one.startsWith(other) || other.startsWith(one));
}

/** Whether two pages are known to be of two units. Where one of them does not say, they may be of the same. */
export function isOtherUnit(a: JobPage, b: JobPage): boolean {
  const differ = (x?: string, y?: string): boolean => x !== undefined && y !== undefined && x !== y;
  return differ(a.unit, b.unit) || differ(a.serial, b.serial);
}

/** By which page a job goes on now: the one it began with, or that of the last revision it took up. */
export function pageNow(job: Job): JobPage {
  return job.entries.reduce((page, entry) => (entry.kind === 'revised' ? entry.page : page), job.page);
}

/**
 * What a job was last done by, where the page has another content now: the walk then says that the procedure changed, asks
 * what to do again, and appends a `revised` act. `undefined` where nothing changed.
 */
export function changedSince(job: Job, page: JobPage): JobPage | undefined {
  const before = pageNow(job);
  return before.content === page.content ? undefined : before;
}

/** The step or end that the last way led to; empty before the first. */
export function standsAt({ entries }: Job): string {
  const last = entries.findLast((entry) => entry.kind === 'leave' || entry.kind === 'back' || entry.kind === 'revised');
  if (last?.kind === 'revised') return last.from;
  return last && 'to' in last ? last.to.replace(/^end:/, '') : '';
}

/** An act as it is kept, now. */
export function stamp(act: Act, amendment?: Amendment): Entry {
  return { ...act, at: new Date().toISOString(), ...(amendment && { amendment }) };
}

/** The head of a job that nothing was done in yet; not kept. */
export function newHead(page: JobPage): JobHead {
  return { id: newId(), page, begun: new Date().toISOString(), state: 'open' };
}

/** Begins another job of this page although one may be open: a second unit of the same kind. */
export async function beginJob(page: JobPage): Promise<Job> {
  const head = newHead(page);
  await write((tx) => tx.objectStore('jobs').add(head));
  noteJob(head);
  tellChange(head.id);
  return { ...head, entries: [] };
}

/** The heads of all jobs, the last begun first. */
export async function readHeads(): Promise<readonly JobHead[]> {
  const heads = await withStore((db) => db.getAll('jobs'));
  return heads.sort((a, b) => (a.begun < b.begun ? 1 : -1));
}

/** All jobs, open and closed, the last begun first. */
export async function listJobs(): Promise<readonly Job[]> {
  return Promise.all((await readHeads()).map(async (head) => ({ ...head, entries: await readEntries(head.id) })));
}

/** The open jobs in which something was done that may be of a page's work: a person says which of them it is. */
export async function openJobs(page: JobPage): Promise<readonly Job[]> {
  const heads = (await readHeads()).filter((head) => head.state === 'open' && isSameWork(head.page, page));
  const jobs = await Promise.all(heads.map(async (head) => ({ ...head, entries: await readEntries(head.id) })));
  return jobs.filter(({ entries }) => entries.length > 0);
}

/** One job; `undefined` where there is none of that id. */
export async function readJob(id: string): Promise<Job | undefined> {
  const head = await withStore((db) => db.get('jobs', id));
  return head && { ...head, entries: await readEntries(id) };
}

async function readEntries(id: string): Promise<readonly Entry[]> {
  const kept = await withStore((db) => db.getAllFromIndex('entries', 'order', entriesOf(id)));
  return kept.map(({ entry }) => entry);
}

/** The entries of a job after a key. */
export function entriesOf(id: string, after = 0): IDBKeyRange {
  return IDBKeyRange.bound([id, after], [id, Number.POSITIVE_INFINITY], true);
}

/** Adds an act to a job within a transaction; rejects with `lost` or `closed` where it may not be added. */
export async function addEntry(tx: Writing, id: string, entry: Entry): Promise<void> {
  const head = await tx.objectStore('jobs').get(id);
  if (!head) throw new StoreFault('lost');
  if (head.state === 'closed' && !entry.amendment) throw new StoreFault('closed');
  await tx.objectStore('entries').add({ job: id, entry });
}

/** Adds an act to an open job away from its page. */
export async function addToJob(id: string, act: Act): Promise<void> {
  await write((tx) => addEntry(tx, id, stamp(act)));
  tellChange(id);
}

/** Notes that the record of a job has left the phone. */
export async function noteSent(id: string): Promise<void> {
  await write(async (tx) => {
    const head = await tx.objectStore('jobs').get(id);
    if (head) await tx.objectStore('jobs').put({ ...head, sent: new Date().toISOString() });
  });
  tellChange(id);
}

/** Closes a job: it is done, or given up. From now on it can only be amended. */
export async function closeJob(id: string): Promise<void> {
  await write(async (tx) => {
    await addEntry(tx, id, stamp({ kind: 'close' }));
    const head = await tx.objectStore('jobs').get(id);
    if (head) await tx.objectStore('jobs').put({ ...head, state: 'closed' });
  });
  tellChange(id);
}

/** Adds to a closed job what was wrong or forgotten. What stands there stays as it is. */
export async function amendJob(id: string, act: AmendingAct, amendment: Amendment): Promise<void> {
  await write((tx) => addEntry(tx, id, stamp(act, amendment)));
  tellChange(id);
}

/** Deletes a job with its pictures, for good. */
export async function deleteJob(id: string): Promise<void> {
  await write(async (tx) => {
    const entries = await tx.objectStore('entries').index('order').getAllKeys(entriesOf(id));
    const photos = await tx.objectStore('photos').index('job').getAllKeys(id);
    await Promise.all([
      tx.objectStore('jobs').delete(id),
      ...entries.map((key) => tx.objectStore('entries').delete(key)),
      ...photos.map((key) => tx.objectStore('photos').delete(key)),
    ]);
  });
  unnoteJob(id);
  tellChange(id);
}

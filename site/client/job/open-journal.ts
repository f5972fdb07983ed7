// The journal of the job that a page is worked by: found again or begun, and each act kept before it counts.

import { addEntry, entriesOf, isSameWork, newHead, readHeads, stamp } from './jobs.js';
import type { Act, Entry, Job, JobPage, Journal } from './journal.js';
import { noteJob } from './lost.js';
import { keepPicture } from './photos.js';
import { type JobHead, StoreFault, tellChange, type Writing, watchJobs, withStore, write } from './store.js';

/** What a journal knows: the head, whether that is kept yet, and the entries up to a key. */
interface Known {
  head: JobHead;
  isKept: boolean;
  /** Called once it is kept. */
  readonly onKept?: () => void;
  entries: readonly Entry[];
  last: number;
}

/**
 * Resumes the open job of this page's procedure and rig (of several the last begun, or the one that `wanted` names), or
 * makes a new one, which is kept with its first act: reading a page leaves no job behind. A job that was begun by another
 * content is found too and keeps its page: ask `changedSince(journal.job, page)`. Rejects with a `StoreFault`: `refused`,
 * and `lost` where the wanted job is not there.
 */
export async function openJournal(page: JobPage, wanted?: string): Promise<Journal> {
  const heads = await readHeads();
  const open = heads.filter((head) => head.state === 'open' && isSameWork(head.page, page));
  const found = wanted === undefined ? open[0] : heads.find(({ id }) => id === wanted);
  if (wanted !== undefined && !found) throw new StoreFault('lost');
  const known: Known = { head: found ?? newHead(page), isKept: found !== undefined, entries: [], last: 0 };
  if (found) await catchUp(known);
  return journalOf(known);
}

/**
 * A new job of this page although one may be open, kept with its first act: another machine of the same kind. `onKept` is
 * called once it is: from then on it is found by other windows.
 */
export function newJournal(page: JobPage, onKept?: () => void): Journal {
  return journalOf({ head: newHead(page), isKept: false, ...(onKept && { onKept }), entries: [], last: 0 });
}

function journalOf(known: Known): Journal {
  let job = jobOf(known);
  const callbacks = new Set<() => void>();
  watchJobs((id) => {
    if (id === known.head.id && known.isKept) void follow(known, callbacks);
  });
  return {
    get job() {
      if (job.entries !== known.entries || job.state !== known.head.state) job = jobOf(known);
      return job;
    },
    append: (act) => append(known, act),
    keepPhoto: (photo) => keepPicture(photo, { begin: (tx) => ensureKept(known, tx), after: () => begun(known) }),
    onChange: (changed) => {
      callbacks.add(changed);
      return () => void callbacks.delete(changed);
    },
  };
}

function jobOf({ head, entries }: Known): Job {
  return { ...head, entries };
}

async function append(known: Known, act: Act): Promise<void> {
  const entry = stamp(act);
  const news = await write(async (tx) => {
    const id = await ensureKept(known, tx);
    await addEntry(tx, id, entry);
    return tx.objectStore('entries').index('order').getAll(entriesOf(id, known.last));
  });
  begun(known);
  take(known, news);
  tellChange(known.head.id);
}

/**
 * Within a transaction: the id of the job, which is put there if it is new. It never becomes another that was begun
 * meanwhile: nobody was asked whether that is of the same machine.
 */
async function ensureKept({ head, isKept }: Known, tx: Writing): Promise<string> {
  // an act before this one may be on its way still
  if (!isKept && !(await tx.objectStore('jobs').get(head.id))) await tx.objectStore('jobs').add(head);
  return head.id;
}

/** After the transaction that kept it. */
function begun(known: Known): void {
  if (known.isKept) return;
  known.isKept = true;
  noteJob(known.head);
  known.onKept?.();
}

function take(known: Known, news: readonly { readonly key?: number; readonly entry: Entry }[]): void {
  // two acts may be on their way at once: the second brings the first along
  const fresh = news.filter(({ key = 0 }) => key > known.last);
  if (fresh.length === 0) return;
  known.entries = [...known.entries, ...fresh.map(({ entry }) => entry)];
  known.last = fresh.at(-1)?.key ?? known.last;
}

async function catchUp(known: Known): Promise<boolean> {
  const { last, head } = known;
  const [news, now] = await withStore((db) =>
    Promise.all([db.getAllFromIndex('entries', 'order', entriesOf(head.id, last)), db.get('jobs', head.id)]),
  );
  const isOther = now?.state !== head.state || news.some(({ key = 0 }) => key > known.last);
  if (now) known.head = now;
  take(known, news);
  return isOther;
}

async function follow(known: Known, callbacks: ReadonlySet<() => void>): Promise<void> {
  // what this tab appended itself is known already and calls nobody back
  try {
    if (await catchUp(known)) for (const changed of callbacks) changed();
  } catch (fault) {
    // the store is gone: the next act says so, and it is that act which would be lost
    if (!(fault instanceof StoreFault)) throw fault;
  }
}

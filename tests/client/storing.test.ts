// What is kept of a job on the phone: every act at once, across tabs, revisions and failures of storage.

import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import * as jobs from '../../site/client/job/jobs.js';
import { findLost } from '../../site/client/job/lost.js';
import { newJournal, openJournal } from '../../site/client/job/open-journal.js';
import { readPhoto } from '../../site/client/job/photos.js';
import { checkStorage } from '../../site/client/job/storage.js';
import { closeStore } from '../../site/client/job/store.js';
import { hasOpenJob } from '../../site/client/offline/open-job.js';
import { learnPage, newPhone, reading } from './jobs.js';

beforeEach(newPhone);
afterEach(async () => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  await closeStore();
});

const kinds = async (id: string): Promise<readonly string[]> =>
  ((await jobs.readJob(id))?.entries ?? []).map(({ kind }) => kind);

/** The same modules once more, as another tab has them. */
async function otherTab(): Promise<{
  openJournal: typeof openJournal;
  jobs: typeof jobs;
  close: () => Promise<void>;
}> {
  vi.resetModules();
  const opening = await import('../../site/client/job/open-journal.js');
  const own = await import('../../site/client/job/jobs.js');
  const store = await import('../../site/client/job/store.js');
  return { openJournal: opening.openJournal, jobs: own, close: store.closeStore };
}

const until = async (holds: () => boolean): Promise<void> => vi.waitFor(() => expect(holds()).toBe(true));

describe('a journal', () => {
  it('keeps each act before it resolves, in order, and is found again by the same work', async () => {
    const journal = await openJournal(learnPage);
    expect(await jobs.listJobs()).toEqual([]);
    await journal.append({ kind: 'tick', condition: 1, words: 'Engine at low idle', met: true });
    await Promise.all([journal.append(reading('on_ground', '3.9')), journal.append(reading('raised', '0.9'))]);
    expect(journal.job.entries.map(({ kind }) => kind)).toEqual(['tick', 'read', 'read']);
    await closeStore();
    const again = await openJournal({ ...learnPage });
    expect(again.job).toEqual(journal.job);
    expect(await hasOpenJob('tarn-40/row-12x20/')).toBe(true);
    expect(await hasOpenJob('es/tarn-40/row-12x20/')).toBe(false);
  });

  it('is found in another language and by another content, and says so', async () => {
    const journal = await openJournal(learnPage);
    await journal.append(reading('on_ground', '3.9'));
    const spanish = { ...learnPage, path: `es/${learnPage.path}`, language: 'es', title: 'Aprender' };
    const revised = { ...spanish, content: 'bbbb', revision: 4, path: `es/${learnPage.path}display-4.2/` };
    expect((await openJournal(spanish)).job.id).toBe(journal.job.id);
    const again = await openJournal(revised);
    expect(again.job.id).toBe(journal.job.id);
    expect(jobs.changedSince(again.job, spanish)).toBeUndefined();
    expect(jobs.changedSince(again.job, revised)).toEqual(learnPage);
    await again.append({ kind: 'revised', page: revised, from: '1' });
    expect(jobs.changedSince(again.job, revised)).toBeUndefined();
    expect(jobs.changedSince(again.job, learnPage)).toEqual(revised);
  });

  it('is not taken for that of another rig, another version or another procedure', async () => {
    const journal = await openJournal({ ...learnPage, path: `${learnPage.path}display-4.2/` });
    await journal.append(reading('on_ground', '3.9'));
    const others = [
      { ...learnPage, path: `${learnPage.path}display-3.10/` },
      { ...learnPage, path: 'tarn-60/row-12x20/learn-height-range/' },
      { ...learnPage, procedure: 'mass-flow', path: 'tarn-40/row-12x20/mass-flow/' },
    ];
    const unit = { ...learnPage, path: `${learnPage.path}display-4.2/`, unit: 'unit-17', serial: '70-00317' };
    expect((await openJournal(unit)).job.id).toBe(journal.job.id);
    expect(jobs.isSameWork(unit, { ...unit, unit: 'unit-18' })).toBe(false);
    expect(jobs.isSameWork(unit, { ...unit, serial: '70-00318' })).toBe(false);
    for (const page of others) expect((await openJournal(page)).job.id).not.toBe(journal.job.id);
  });

  it('is one of several where a second unit of the same kind is begun, and the link says which', async () => {
    const first = await openJournal(learnPage);
    await first.append(reading('on_ground', '3.9'));
    const second = await jobs.beginJob(learnPage);
    expect((await jobs.listJobs()).map(({ state }) => state)).toEqual(['open', 'open']);
    expect((await openJournal(learnPage, first.job.id)).job.id).toBe(first.job.id);
    expect((await openJournal(learnPage, second.id)).job.entries).toEqual([]);
    await expect(openJournal(learnPage, 'gone')).rejects.toMatchObject({ kind: 'lost' });
  });

  it('takes nothing more once it is closed but amendments, which say who and why', async () => {
    const journal = await openJournal(learnPage);
    await journal.append(reading('on_ground', '3.9'));
    const { id } = journal.job;
    await jobs.closeJob(id);
    await until(() => journal.job.state === 'closed');
    await expect(journal.append(reading('raised', '0.9'))).rejects.toMatchObject({ kind: 'closed' });
    await expect(jobs.closeJob(id)).rejects.toMatchObject({ kind: 'closed' });
    await jobs.amendJob(id, { kind: 'note', text: 'It was unit 17.' }, { who: 'R. Quill', why: 'forgotten' });
    expect(await kinds(id)).toEqual(['read', 'close', 'note']);
    expect((await jobs.readJob(id))?.entries.at(-1)?.amendment).toEqual({ who: 'R. Quill', why: 'forgotten' });
    expect((await openJournal(learnPage)).job.id).not.toBe(id);
    expect(await hasOpenJob('tarn-40/')).toBe(false);
  });

  it('keeps pictures beside it until it is deleted, and nothing after', async () => {
    const journal = await openJournal(learnPage);
    const photo = await journal.keepPhoto(new Blob(['jpeg'], { type: 'image/jpeg' }));
    await journal.append({ kind: 'photo', step: '4', photo, type: 'image/jpeg' });
    const kept = await readPhoto(photo);
    expect([kept?.type, await kept?.text()]).toEqual(['image/jpeg', 'jpeg']);
    await jobs.deleteJob(journal.job.id);
    expect(await readPhoto(photo)).toBeUndefined();
    expect(await jobs.listJobs()).toEqual([]);
    await expect(journal.append(reading('raised', '0.9'))).rejects.toMatchObject({ kind: 'lost' });
    expect(findLost([])).toEqual([]);
  });
});

describe('two tabs', () => {
  it('with one job lose no act, agree on the order, and tell each other', async () => {
    const mine = await openJournal(learnPage);
    await mine.append(reading('start', '1'));
    const other = await otherTab();
    const theirs = await other.openJournal(learnPage);
    let told = 0;
    theirs.onChange(() => {
      told += 1;
    });
    const write = async (journal: typeof mine, name: string): Promise<void> => {
      for (let i = 0; i < 20; i += 1) await journal.append(reading(`${name}${i}`, '1'));
    };
    await Promise.all([write(mine, 'a'), write(theirs, 'b')]);
    await until(() => mine.job.entries.length === 41 && theirs.job.entries.length === 41);
    expect(theirs.job.entries).toEqual(mine.job.entries);
    expect(told).toBeGreaterThan(0);
    await other.close();
  });

  it('that begin the same work at once have a job each: nobody was asked whether it is the same machine', async () => {
    const mine = await openJournal(learnPage);
    const other = await otherTab();
    const theirs = await other.openJournal(learnPage);
    await Promise.all([mine.append(reading('a', '1')), theirs.append(reading('b', '1'))]);
    await Promise.all([mine.append(reading('c', '1')), theirs.append(reading('d', '1'))]);
    const kept = await jobs.listJobs();
    const values = kept.map(({ entries }) => entries.map((entry) => (entry.kind === 'read' ? entry.value : '')));
    expect(values.sort()).toEqual([
      ['a', 'c'],
      ['b', 'd'],
    ]);
    expect((await jobs.openJobs(learnPage)).length).toBe(2);
    await other.close();
  });

  it('are told when a new job is kept, of which two acts at once are one', async () => {
    let kept = 0;
    const journal = newJournal(learnPage, () => {
      kept += 1;
    });
    expect(kept).toBe(0);
    await Promise.all([journal.append(reading('a', '1')), journal.append(reading('b', '1'))]);
    expect([kept, (await jobs.listJobs()).map(({ entries }) => entries.length)]).toEqual([1, [2]]);
  });
});

describe('a phone', () => {
  it('that refuses storage says so, and nothing pretends to be kept', async () => {
    vi.stubGlobal('indexedDB', undefined);
    expect(await checkStorage()).toBe('refused');
    await expect(openJournal(learnPage)).rejects.toMatchObject({ kind: 'refused' });
    expect(await hasOpenJob('tarn-40/')).toBe(false);
  });

  it('that fails to open its storage refuses it too', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('', 'SecurityError');
    });
    expect(await checkStorage()).toBe('refused');
  });

  it('that is full says so before work and at the act, and the act is not shown as kept', async () => {
    const journal = await openJournal(learnPage);
    await journal.append(reading('on_ground', '3.9'));
    const full = (): never => {
      throw new DOMException('', 'QuotaExceededError');
    };
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(full);
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(full);
    await expect(journal.append(reading('raised', '0.9'))).rejects.toMatchObject({ kind: 'full' });
    expect(journal.job.entries.length).toBe(1);
    expect(await checkStorage()).toBe('full');
    vi.restoreAllMocks();
    await journal.append(reading('raised', '0.9'));
    expect(await kinds(journal.job.id)).toEqual(['read', 'read']);
  });

  it('that has little space left counts as full, and says whether it may clear what it keeps', async () => {
    const storage = (quota: number, persists: boolean): void => {
      vi.stubGlobal('navigator', {
        storage: {
          estimate: async () => ({ quota, usage: 1_000_000 }),
          persisted: async () => false,
          persist: async () => persists,
        },
      });
    };
    storage(3_000_000, true);
    expect(await checkStorage()).toBe('full');
    storage(300_000_000, true);
    expect(await checkStorage()).toBe('kept');
    storage(300_000_000, false);
    expect(await checkStorage()).toBe('may-be-cleared');
  });

  it('that cleared its storage is caught at it', async () => {
    const journal = await openJournal(learnPage);
    await journal.append(reading('on_ground', '3.9'));
    await closeStore();
    globalThis.indexedDB = new IDBFactory();
    expect(findLost(await jobs.listJobs()).map(({ title }) => title)).toEqual([learnPage.title]);
    await expect(journal.append(reading('raised', '0.9'))).rejects.toMatchObject({ kind: 'lost' });
  });
});

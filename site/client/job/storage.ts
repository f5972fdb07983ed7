// Whether this phone will keep what is written down: asked before work starts, answered in one of four words.

import { StoreFault, withStore, write } from './store.js';

/**
 * `kept`: until a person clears it. `may-be-cleared`: kept, but the phone may clear it when it runs short of space or the
 * site is not opened for weeks. `refused`: nothing can be kept. `full`: too little space is left to go on.
 */
export type StorageState = 'kept' | 'may-be-cleared' | 'refused' | 'full';

/** What a job with some pictures may take, in bytes; less than this left is `full`. */
const needed = 5_000_000;

/** Tries storage out by keeping something, and asks the phone not to clear it. Some browsers ask the person then. */
export async function checkStorage(): Promise<StorageState> {
  try {
    const trial = { id: 'trial', job: '', type: '', bytes: new ArrayBuffer(200_000) };
    await write((tx) => tx.objectStore('photos').put(trial));
    await write((tx) => tx.objectStore('photos').delete(trial.id));
  } catch (fault) {
    if (!(fault instanceof StoreFault)) throw fault;
    return fault.kind === 'full' ? 'full' : 'refused';
  }
  const storage = globalThis.navigator?.storage as StorageManager | undefined;
  const { quota = Number.POSITIVE_INFINITY, usage = 0 } = (await storage?.estimate?.()) ?? {};
  if (quota - usage < needed) return 'full';
  const isKept = (await storage?.persisted?.()) || (await storage?.persist?.());
  return isKept ? 'kept' : 'may-be-cleared';
}

/** What jobs and reports take, in bytes, about: the text of what was done, and the pictures. */
export async function spaceUsed(): Promise<number> {
  const [entries, photos, reports] = await withStore((db) =>
    Promise.all([db.getAll('entries'), db.getAll('photos'), db.getAll('reports')]),
  );
  const text = [...entries, ...reports].map((one) => JSON.stringify(one).length);
  return [...text, ...photos.map(({ bytes }) => bytes.byteLength)].reduce((sum, one) => sum + one, 0);
}

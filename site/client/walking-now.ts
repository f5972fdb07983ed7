// Whether a walk is on the screen of some window of this phone, or is just being begun there. A lock says so, which ends with
// its page, however that ends.

const prefix = 'stepgauge-walk ';

/** Says it of the page at a path of the site until `over` is aborted. */
export function holdWalk(path: string, over: AbortSignal): void {
  // without locks nobody is told; what is kept then waits for nothing
  void navigator.locks?.request(
    prefix + path,
    { mode: 'shared' },
    () => new Promise<void>((done) => over.addEventListener('abort', () => done(), { once: true })),
  );
}

/** Whether a page below a folder of the site is being walked through. */
export async function isWalking(folder: string): Promise<boolean> {
  const { held = [] } = (await navigator.locks?.query()) ?? {};
  return held.some(({ name }) => name?.startsWith(prefix + folder));
}

/**
 * Whether no other window is just beginning the work of that name: none can until `over` is aborted. Without locks nobody
 * is kept waiting.
 */
export function beginAlone(work: string, over: AbortSignal): Promise<boolean> {
  const { locks } = navigator as { readonly locks?: LockManager };
  if (!locks) return Promise.resolve(true);
  return new Promise((resolve, reject) => {
    locks
      .request(`stepgauge-begin ${work}`, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        if (lock) return new Promise<void>((done) => over.addEventListener('abort', () => done(), { once: true }));
      })
      .catch(reject);
  });
}

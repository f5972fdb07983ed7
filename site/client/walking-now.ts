// Whether a walk is on the screen of some window of this phone. A lock says so, which ends with its page, however that ends.

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

// Starts the worker that answers for kept pages. It runs only on phones that keep something.

import { workerName } from '../../../src/emit/offline/shapes.js';
import { Hindered } from './hindered.js';
import { readMarks } from './marks.js';
import { isServed, siteRoot } from './root.js';

/** Starts it, and waits until it answers. Throws `Hindered` where the browser refuses. */
export async function startWorker(root: string): Promise<void> {
  try {
    await navigator.serviceWorker.register(root + workerName, { scope: root, updateViaCache: 'none' });
    await navigator.serviceWorker.ready;
  } catch (fault) {
    // TypeError where the file cannot be fetched, SecurityError where it may not run (W3C, Service Workers)
    throw new Hindered(fault instanceof TypeError ? 'away' : 'refused');
  }
}

/** On a phone that keeps something: sees that the worker is there, also after the browser dropped it. */
export function keepWorker(): void {
  if (!isServed() || !isSecureContext || !('serviceWorker' in navigator)) return;
  const root = siteRoot();
  if (Object.keys(readMarks(root)).length === 0) return;
  // without signal there is nothing to fetch it from: the one that runs goes on
  startWorker(root).catch((fault) => {
    if (!(fault instanceof Hindered)) throw fault;
  });
}

// Tells when something in a folder has changed: once for a burst of changes, since editors write in several goes.

import { watch } from 'node:fs';

const quietTime = 80;

/** Calls `changed` after each burst of changes below `folder`. Gives a function that stops watching. */
export function watchFolder(folder: string, changed: () => void): () => void {
  let timer: NodeJS.Timeout | undefined;
  const watcher = watch(folder, { recursive: true }, () => {
    clearTimeout(timer);
    timer = setTimeout(changed, quietTime);
  });
  return () => {
    clearTimeout(timer);
    watcher.close();
  };
}

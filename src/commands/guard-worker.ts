// A thread that tries a part of the slips of a book, and tells how far it is. Reads the folder itself.

import { parentPort, workerData } from 'node:worker_threads';
import { type ToldPart, trySlips } from '../guard/guard.js';
import { readBookFolder } from '../io.js';

/** What a thread is started with. */
export interface WorkerTask {
  readonly folder: string;
  readonly today: string;
  readonly sample?: { readonly size: number; readonly seed: number };
  readonly part: { readonly index: number; readonly of: number };
}

/** What it says: how many it has tried, and at last what became of them. */
export type WorkerWord = { readonly done: number; readonly of: number } | { readonly part: ToldPart };

const task = workerData as WorkerTask;
const read = readBookFolder(task.folder);
const { part } = trySlips({
  sources: read.files,
  figures: new Set(read.figures.keys()),
  unreadable: read.unread,
  today: task.today,
  part: task.part,
  ...(task.sample ? { sample: task.sample } : {}),
  progress: (done, of) => say({ done, of }),
});
if (!part) throw new Error('A book that holds has errors when its slips are tried');
say({ part });

function say(word: WorkerWord): void {
  parentPort?.postMessage(word);
}

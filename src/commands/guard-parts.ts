// Tries the slips of a book that holds, shared out to as many threads as there are cores.

import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type ToldPart, tellGuard } from '../guard/guard.js';
import type { GuardResult } from '../model/guard-result.js';
import { roomyThread } from './engine.js';
import type { WorkerTask, WorkerWord } from './guard-worker.js';
import type { Terminal } from './terminal.js';

/** More threads than this would each spend longer on reading the book than on its slips. */
const mostThreads = 8;

/** The result of all threads together; the same however many there are. */
export async function guardInParts(task: Omit<WorkerTask, 'part'>, terminal: Terminal): Promise<GuardResult> {
  const of = Math.max(1, Math.min(mostThreads, availableParallelism()));
  const progress = progressOn(terminal, of);
  const parts = Array.from({ length: of }, (_, index) =>
    tryInThread({ ...task, part: { index, of } }, (done, all) => progress(index, [done, all])),
  );
  try {
    return tellGuard(await Promise.all(parts), task.sample);
  } finally {
    terminal.progress('');
  }
}

function tryInThread(task: WorkerTask, progress: (done: number, of: number) => void): Promise<ToldPart> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./guard-worker.js', import.meta.url), {
      workerData: task,
      resourceLimits: roomyThread,
    });
    thread.on('message', (word: WorkerWord) => {
      if ('part' in word) resolve(word.part);
      else progress(word.done, word.of);
    });
    thread.on('error', reject);
    thread.on('exit', (code) => reject(new Error(`A thread that tried slips ended with ${code}`)));
  });
}

/** One line that says how far all of them are, written anew at each percent. */
function progressOn(terminal: Terminal, threads: number): (thread: number, state: readonly [number, number]) => void {
  const states = new Map<number, readonly [number, number]>();
  let shown = -1;
  return (thread, state) => {
    states.set(thread, state);
    if (states.size < threads) return;
    const done = [...states.values()].reduce((sum, [one]) => sum + one, 0);
    const all = [...states.values()].reduce((sum, [, one]) => sum + one, 0);
    const percent = all === 0 ? 100 : Math.floor((100 * done) / all);
    if (percent === shown) return;
    shown = percent;
    terminal.progress(`${done} of ${all} slips tried (${percent} %)`);
  };
}

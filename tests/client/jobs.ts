// Pages and acts for tests of jobs, and a phone whose storage is new.

import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import type { JobPage, ReadingAct } from '../../site/client/job/journal.js';

/** A page of the demo book. */
export const learnPage: JobPage = {
  code: 'QF72KD',
  procedure: 'learn-height-range',
  title: 'Learn the header height range',
  revision: 3,
  content: 'aaaa',
  path: 'tarn-40/row-12x20/learn-height-range/',
  rig: 'Tarn 40 · 12-row header, 20 in rows',
  language: 'en',
};

/** A reading that passes, unless said otherwise. */
export function reading(value: string, text: string, changes: Partial<ReadingAct> = {}): ReadingAct {
  return {
    kind: 'read',
    step: '2',
    value,
    label: `Reading ${value}`,
    text,
    unit: 'V',
    verdict: 'pass',
    limits: '3.63 to 4.17 V',
    instrument: 'Display reading',
    ...changes,
  };
}

/** Storage that nothing was kept in yet. */
export function newPhone(): void {
  globalThis.indexedDB = new IDBFactory();
  const notes = new Map<string, string>();
  Object.defineProperty(globalThis, 'localStorage', {
    configurable: true,
    value: {
      getItem: (key: string) => notes.get(key) ?? null,
      setItem: (key: string, text: string) => void notes.set(key, text),
      removeItem: (key: string) => void notes.delete(key),
    },
  });
}

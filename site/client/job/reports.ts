// Pages that were found wrong: kept with the job that is open on the page, else on their own until a person sends them.

import { addEntry, isSameWork, stamp } from './jobs.js';
import type { JobPage } from './journal.js';
import { type Report, tellChange, withStore, write } from './store.js';

/** What is wrong, and at which step, if at one. */
export interface WrongPage {
  readonly step?: string;
  readonly text: string;
}

/** Keeps that a page was found wrong; says with what it is kept. */
export async function reportWrong(page: JobPage, { step, text }: WrongPage): Promise<'job' | 'report'> {
  const at = step === undefined ? {} : { step };
  const job = await write(async (tx) => {
    const heads = await tx.objectStore('jobs').getAll();
    const open = heads
      .filter((head) => head.state === 'open' && isSameWork(head.page, page))
      .sort((a, b) => (a.begun < b.begun ? 1 : -1))[0];
    if (open) await addEntry(tx, open.id, stamp({ kind: 'wrong', ...at, text }));
    else await tx.objectStore('reports').add({ page, ...at, text, at: new Date().toISOString() });
    return open?.id;
  });
  tellChange(job ?? '');
  return job === undefined ? 'report' : 'job';
}

/** Reports of pages on which no job was open, the last first. */
export async function listReports(): Promise<readonly Report[]> {
  return (await withStore((db) => db.getAll('reports'))).reverse();
}

/** Deletes a report for good. */
export async function deleteReport(key: number): Promise<void> {
  await write((tx) => tx.objectStore('reports').delete(key));
  tellChange('');
}

/** The reports as a file to send. */
export function reportsJson(reports: readonly Report[]): string {
  const list = reports.map(({ page: { serials: _, ...page }, step, text, at }) => ({
    at,
    page,
    ...(step !== undefined && { step }),
    text,
  }));
  return `${JSON.stringify({ format: 'stepgauge-wrong-pages', version: 1, reports: list }, null, 2)}\n`;
}

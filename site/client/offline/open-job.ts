// Whether work is going on that pages must not change under.

import { readHeads } from '../job/jobs.js';
import { StoreFault } from '../job/store.js';

/** Whether a job is open on pages below a folder of the site (`es/tarn-40/row-12x20/`); on a phone that keeps none, never. */
export async function hasOpenJob(folder: string): Promise<boolean> {
  try {
    return (await readHeads()).some(({ state, page }) => state === 'open' && page.path.startsWith(folder));
  } catch (fault) {
    if (fault instanceof StoreFault) return false;
    throw fault;
  }
}

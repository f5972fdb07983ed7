// What pages do that lead to a procedure: the machines of this phone, and codes as they are typed.

import { compareCard } from './cards.js';
import { findCodes, findUnits, followCode } from './codes.js';
import { mayHaveJobs } from './job/this-page.js';
import { showRemembered } from './remember.js';
import { showKnown, startRigForm } from './rig-form.js';

/** Starts all of it; each part does nothing on pages that have no place for it. */
export function startFinding(): void {
  followCode();
  showRemembered();
  startRigForm();
  showKnown();
  findCodes();
  findUnits();
  compareCard();
  findOpenJobs();
}

function findOpenJobs(): void {
  const folder = document.getElementById('keep')?.dataset.folder;
  const place = document.getElementById('search');
  if (folder !== undefined && place && mayHaveJobs())
    void import('./open-jobs.js').then(({ showOpenJobs }) => showOpenJobs(folder, place));
}

// Starts a walk: fetches what it runs on, finds out where it stands, and keeps the phone's own back button within it.

import { readPortable } from '../../../src/calc/portable.js';
import type { WalkFile } from '../../../src/emit/walk/walk-shape.js';
import type { JobPage, Journal } from '../job/journal.js';
import { forgetfulJournal, openSession, perform, type WalkMode } from './session.js';
import { judgeTable } from './table.js';
import { showWalk } from './walk.js';

export interface StartWalk {
  readonly page: JobPage;
  /** Where the walk's file is, from this page. */
  readonly path: string;
  readonly mode: WalkMode;
  /** Where the job is kept; without it nothing is. */
  readonly journal?: Journal;
  /** The procedure changed since the job began: all steps are done again. */
  readonly revised?: boolean;
  /** The step to begin at; for the desk. */
  readonly at?: string;
}

/** Shows the walk over the page. */
export async function startWalk({ page, path, mode, journal, revised, at }: StartWalk): Promise<void> {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const file = readPortable<WalkFile>(await response.text());
  const session = openSession({
    file,
    page,
    mode,
    journal: journal ?? forgetfulJournal(page),
    judgeSheet: judgeTable,
    ...(at !== undefined && { at }),
  });
  if (revised) {
    await perform({ session, act: { kind: 'revised', page, from: file.first } });
    return startWalk({ page, path, mode, ...(journal && { journal }) });
  }
  const { back, close } = showWalk(session, finishOf(session.journal, mode));
  keepBack(back, close);
}

function finishOf(journal: Journal, mode: WalkMode): (() => void) | undefined {
  const root = document.body.dataset.jobs;
  if (mode !== 'job' || root === undefined) return undefined;
  return () => {
    location.href = `${root}#record=${journal.job.id}`;
  };
}

/** The phone's back button goes back a step, and out of the walk from its first place. */
function keepBack(back: () => boolean, close: () => void): void {
  history.pushState({ walk: true }, '');
  const onBack = (): void => {
    if (back()) history.pushState({ walk: true }, '');
    else close();
  };
  addEventListener('popstate', onBack);
  document.addEventListener('walk-closed', () => removeEventListener('popstate', onBack), { once: true });
}

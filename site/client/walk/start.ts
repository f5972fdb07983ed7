// Starts a walk: fetches what it runs on, finds out where it stands, and keeps the phone's own back button within it.

import { readPortable } from '../../../src/calc/portable.js';
import type { WalkFile } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import { openJobs, workPath } from '../job/jobs.js';
import type { JobPage, Journal } from '../job/journal.js';
import { newJournal } from '../job/open-journal.js';
import { checkStorage } from '../job/storage.js';
import { StoreFault, siteRoot } from '../job/store.js';
import { beginAlone, holdWalk } from '../walking-now.js';
import { aside, offerButton } from './offer.js';
import { forgetfulJournal, openSession, perform, type WalkMode } from './session.js';
import { judgeTable } from './table.js';
import { showWalk } from './walk.js';
import { say } from './words.js';

export interface StartWalk {
  readonly page: JobPage;
  /** Where the walk's file is, from this page. */
  readonly path: string;
  readonly mode: WalkMode;
  /** Where the offer stands: what has to be said before work starts is said there. */
  readonly place: HTMLElement;
  /** Offers the jobs that are open: which of them to go on with, if any, a person says. */
  readonly offer: () => void;
  /** The job to go on with; without it one is begun. */
  readonly journal?: Journal;
  /** The procedure changed since the job began: all steps are done again. */
  readonly revised?: boolean;
  /** The step to begin at; for the desk. */
  readonly at?: string;
  /** The phone keeps nothing, and the person was told. */
  readonly unkept?: boolean;
}

/** Shows the walk over the page. */
export async function startWalk(options: StartWalk): Promise<void> {
  const { page, path, mode, revised, at } = options;
  await wearStyle();
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const file = readPortable<WalkFile>(await response.text());
  // last of all: nothing can fail any more while other windows are kept from beginning
  const journal = mode === 'job' && !options.unkept ? await jobOf(options) : undefined;
  if (mode === 'job' && !options.unkept && !journal) return;
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
    return startWalk({ ...options, ...(journal && { journal }), revised: false });
  }
  const { back, close } = showWalk(session, journal && finishOf(journal));
  keepBack(back, close);
  const over = new AbortController();
  document.addEventListener('walk-closed', () => over.abort(), { once: true });
  if (mode === 'job') holdWalk(page.path, over.signal);
}

/** The style sheet of the walk, fetched once: a page that is only read does without it. */
async function wearStyle(): Promise<void> {
  const { walkStyle } = document.body.dataset;
  if (walkStyle === undefined || document.querySelector('link[data-walk]')) return;
  const link = element('link', { rel: 'stylesheet', href: walkStyle, 'data-walk': '' }, []);
  await new Promise((resolve, reject) => {
    link.addEventListener('load', resolve);
    link.addEventListener('error', () => reject(new Error(`${walkStyle} did not come`)));
    document.head.append(link);
  });
}

/** The journal of the job; undefined where the phone keeps nothing, which is said, and asked whether to start all the same. */
async function jobOf(options: StartWalk): Promise<Journal | undefined> {
  const { place } = options;
  const kept = await checkStorage();
  if (kept === 'kept' || kept === 'may-be-cleared') {
    const journal = options.journal ?? (await freshJournal(options).catch(refusedKind));
    if (journal === 'other') return undefined;
    if (journal) return journal;
  }
  const why = say(kept === 'full' ? 'not-kept-full' : 'not-kept-refused');
  place.replaceChildren(
    element('p', { class: 'walk-warning', role: 'alert' }, [say('not-kept', { why })]),
    offerButton(say('start-anyway'), () => void startWalk({ ...options, unkept: true })),
  );
  return undefined;
}

/**
 * A new job of this page. `other` where one is open that nobody has chosen (begun by another window, or its note was
 * cleared), or where another window is just beginning one: asked and begun is one thing, so that no two windows that start
 * at the same moment do so unseen by each other.
 */
async function freshJournal(options: StartWalk): Promise<Journal | 'other'> {
  const { page, offer } = options;
  const beginning = new AbortController();
  const end = (): void => beginning.abort();
  if (!(await beginAlone(`${siteRoot()} ${workPath(page)}`, beginning.signal))) {
    sayBegunElsewhere(options);
    return 'other';
  }
  document.addEventListener('walk-closed', end, { once: true, signal: beginning.signal });
  try {
    if ((await openJobs(page)).length === 0) return newJournal(page, end);
  } catch (fault) {
    end();
    throw fault;
  }
  end();
  offer();
  return 'other';
}

function sayBegunElsewhere(options: StartWalk): void {
  const { page, place } = options;
  place.replaceChildren(
    element('p', { class: 'walk-warning', role: 'alert' }, [say('begun-elsewhere')]),
    offerButton(place.dataset.start ?? '', () => void startWalk(options)),
    offerButton(say('beside'), () => void startWalk({ ...options, journal: newJournal(page) }), 'walk-other'),
    aside(say('beside-why')),
  );
}

function refusedKind(fault: unknown): undefined {
  if (!(fault instanceof StoreFault)) throw fault;
  return undefined;
}

function finishOf(journal: Journal): (() => void) | undefined {
  const root = document.body.dataset.jobs;
  if (root === undefined) return undefined;
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

// The part of a home that keeps it on the phone: offers it, says what is fetched, since when it is kept, what hinders.

import type { BookStatus } from '../../../src/emit/offline/shapes.js';
import { isWalking } from '../walking-now.js';
import { askStatus, forgetAnswer } from './check.js';
import { Hindered, type Hindrance } from './hindered.js';
import { fetchList, keepSet, missingFiles, removeSet } from './keep-set.js';
import { readMarks, setMark } from './marks.js';
import { hasOpenJob } from './open-job.js';
import { isServed, siteRoot } from './root.js';
import { fill, sayBytes, sayMoment, showOnly } from './say.js';
import { type KeptSet, readSets } from './store.js';
import { startWorker } from './worker.js';

interface Panel {
  readonly place: HTMLElement;
  readonly root: string;
  readonly folder: string;
  readonly name: string;
  /** The fetching that is going on. */
  running?: AbortController;
}

/** What is known of the home. */
export interface View {
  readonly set?: KeptSet;
  /** Files of the set that the phone threw away. */
  readonly isTorn: boolean;
  /** It was kept once, by what the phone remembers elsewhere. */
  readonly wasKept: boolean;
  readonly latest?: BookStatus['sets'][string] | undefined;
  readonly isAnswered: boolean;
  readonly hasJob: boolean;
  /** One of its pages is being walked through in some window. */
  readonly isWalked: boolean;
  readonly isPromised: boolean;
  readonly hindrance?: Hindrance | undefined;
}

/** Shows the panel and makes it work; does nothing on pages without one. */
export function startKeeping(): void {
  const place = document.getElementById('keep');
  const { name = '' } = document.body.dataset;
  if (!place || !isServed()) return;
  const panel: Panel = { place, root: siteRoot(), folder: place.dataset.folder ?? '', name };
  place.hidden = false;
  place.addEventListener('click', (event) => {
    const act =
      event.target instanceof Element ? event.target.closest<HTMLElement>('[data-do]')?.dataset.do : undefined;
    if (act === 'keep' || act === 'update') void fetchAll(panel);
    if (act === 'cancel') panel.running?.abort();
    if (act === 'remove') void removeAll(panel);
  });
  void refresh(panel);
}

/** Which parts of the panel are to be seen. */
export function partsOf(view: View): readonly string[] {
  const { set, latest, hindrance } = view;
  const parts: string[] = hindrance ? [hindrance] : [];
  if (!set) {
    if (view.wasKept && !hindrance) parts.push('evicted');
    if (latest) parts.push('offer', 'keep');
    else if (!hindrance) parts.push(view.isAnswered ? 'mixed' : 'away');
    return parts;
  }
  if (view.isTorn) parts.push('torn', 'update');
  else {
    parts.push('kept');
    if (latest && latest[0] !== set.list.version) {
      parts.push('changed');
      // a job that rests is led on by the new pages, which say what to do again; steps on the screen must not change
      if (view.isWalked) parts.push('job');
      else parts.push(...(view.hasJob ? ['open-job'] : []), 'update');
    }
  }
  return [...parts, 'how', view.isPromised ? 'promised' : 'unpromised', 'remove'];
}

async function refresh(panel: Panel, hindrance?: Hindrance): Promise<void> {
  const { place } = panel;
  if (!isSecureContext) return showOnly(place, ['insecure']);
  if (!('caches' in window) || !('serviceWorker' in navigator)) return showOnly(place, ['refused']);
  try {
    await show(panel, undefined, hindrance);
    const status = await askStatus();
    if (!panel.running) await show(panel, status, hindrance, true);
  } catch {
    showOnly(place, ['refused']);
  }
  if (location.hash === '#keep') place.scrollIntoView();
}

async function show(
  panel: Panel,
  status: BookStatus | undefined,
  hindrance?: Hindrance,
  isLast = false,
): Promise<void> {
  const { place, root, folder } = panel;
  const set = (await readSets(root)).find(({ list }) => list.folder === folder);
  const latest = status?.sets[folder];
  const view: View = {
    ...(set && { set }),
    isTorn: set !== undefined && (await missingFiles(root, set.list)).length > 0,
    wasKept: !set && folder in readMarks(root),
    latest,
    isAnswered: status !== undefined,
    hasJob: await hasOpenJob(folder),
    isWalked: await isWalking(folder),
    isPromised: (await navigator.storage?.persisted?.()) ?? false,
    hindrance,
  };
  // whether there is signal is not known before the site was asked
  if (!set && !isLast) return;
  showOnly(place, partsOf(view));
  fill(place, { size: latest ? sayBytes(latest[1]) : '', since: set ? sayMoment(set.keptAt) : '' });
  if (set && latest && latest[0] !== set.list.version) await sayChange(panel);
}

/** How much of the new version the phone does not have yet. */
async function sayChange({ place, root }: Panel): Promise<void> {
  try {
    const missing = await missingFiles(root, await fetchList(listAddress(place)));
    fill(place, { size: sayBytes(missing.reduce((sum, [, , bytes]) => sum + bytes, 0)) });
  } catch (fault) {
    // the size of the whole stays there, which is true as an upper limit
    if (!(fault instanceof Hindered)) throw fault;
  }
}

function listAddress(place: HTMLElement): string {
  return new URL(place.dataset.list ?? '', location.href).href;
}

async function fetchAll(panel: Panel): Promise<void> {
  const { place, root, folder, name } = panel;
  if (panel.running) return;
  const running = new AbortController();
  panel.running = running;
  const before = (await readSets(root)).find(({ list }) => list.folder === folder)?.list.version;
  let hindrance: Hindrance | undefined;
  let after: string | undefined;
  try {
    await startWorker(root);
    void navigator.storage?.persist?.();
    const list = await fetchList(listAddress(place));
    await seeRoom(root, list);
    const onProgress = (done: number, all: number): void => sayProgress(place, done, all);
    const mayTakePlace = async (): Promise<boolean> => before === undefined || !(await isWalking(folder));
    await keepSet(list, { root, name, signal: running.signal, onProgress, mayTakePlace, now: () => new Date() });
    setMark(root, folder, true);
    after = list.version;
  } catch (fault) {
    if (!(fault instanceof Hindered)) throw fault;
    hindrance = fault.why;
  } finally {
    delete panel.running;
    endProgress(place);
  }
  // the page in sight is of the version before: the new one takes its place at once
  if (before !== undefined && after !== undefined && before !== after) location.reload();
  else await refresh(panel, hindrance);
}

async function seeRoom(root: string, list: Parameters<typeof missingFiles>[1]): Promise<void> {
  const { quota, usage = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  const needed = (await missingFiles(root, list)).reduce((sum, [, , bytes]) => sum + bytes, 0);
  if (quota !== undefined && quota - usage < needed) throw new Hindered('full');
}

function sayProgress(place: HTMLElement, done: number, all: number): void {
  const bar = place.querySelector('progress');
  showOnly(place, ['busy', 'cancel']);
  fill(place, { done: sayBytes(done), all: sayBytes(all) });
  if (!bar) return;
  bar.hidden = false;
  bar.value = all === 0 ? 100 : (100 * done) / all;
}

function endProgress(place: HTMLElement): void {
  const bar = place.querySelector('progress');
  if (bar) bar.hidden = true;
}

async function removeAll(panel: Panel): Promise<void> {
  let hindrance: Hindrance | undefined;
  try {
    await removeSet(panel.root, panel.folder);
    setMark(panel.root, panel.folder, false);
  } catch (fault) {
    if (!(fault instanceof Hindered)) throw fault;
    hindrance = fault.why;
  }
  forgetAnswer();
  await refresh(panel, hindrance);
}

// Shows at the top of a page what speaks against it: withdrawn, revised or gone since, or not checked online for long.

import { compareSet, hasChanged } from './changes.js';
import { askStatus, noteTime, readCheck } from './check.js';
import { type Check, type Findings, judgePage, type PageFacts } from './judge.js';
import { onEachLook } from './look-again.js';
import { isServed, siteRoot } from './root.js';
import { fill, showOnly } from './say.js';
import { filesOfSet, pathBelow, readSets } from './store.js';

/** Judges the page by what is known, asks the site, and judges again; also when the page comes back into sight. */
export function watchStanding(): void {
  const place = document.getElementById('standing');
  if (!place || !isServed()) return;
  const page: PageFacts = { ...ownRevision(), days: Number(place.dataset.days) };
  const judge = async (): Promise<void> => {
    await show(place, page);
    const status = await askStatus();
    if (!status) return;
    await compareSet(siteRoot(), ownPath(), status).catch(ignoreRefused);
    await show(place, page);
  };
  onEachLook(() => void judge());
}

async function show(place: HTMLElement, page: PageFacts): Promise<void> {
  const check = readCheck() ?? (await checkOfSet());
  const isChanged = !isHome() && (await hasChanged(siteRoot(), ownPath()).catch(ignoreRefused)) === true;
  const found = judgePage(check, { ...page, isChanged }, Date.now());
  if (check) noteTime(check, Date.now());
  const names = namesOf(found);
  showOnly(place, names);
  // numbers and steps that the book has changed are said to be old in the midst of work, too
  place.classList.toggle('outdated', names.includes('revised') || names.includes('changed-page'));
  fill(place, { revision: String(found.revised ?? ''), days: String(found.stale ?? '') });
  place.hidden = names.length === 0;
  if (found.taken) takeBack(place);
  else giveBack();
}

// in the midst of work the steps that make the machine safe stay: nobody is left alone with it half done
function takeBack(place: HTMLElement): void {
  const { classList } = document.body;
  classList.add('taken-back');
  if (!classList.replace('walking', 'taken-in-work')) return;
  place.scrollIntoView();
}

// an old answer knows nothing of what was added since, and what was withdrawn may be released again
function giveBack(): void {
  const { classList } = document.body;
  classList.remove('taken-back');
  classList.replace('taken-in-work', 'walking');
}

/** Which of the page's notes are to be seen. */
export function namesOf({ taken, revised, changed, stale, clock }: Findings): readonly string[] {
  if (taken) return [taken];
  const old = revised !== undefined ? 'revised' : changed && 'changed-page';
  const notes = [old, stale !== undefined && 'stale', clock && 'clock'];
  const shown = notes.filter((name) => typeof name === 'string');
  return shown.length > 0 ? [...shown, 'call'] : [];
}

/** On the home itself the part that keeps it says what has changed. */
function isHome(): boolean {
  return document.getElementById('keep') !== null;
}

function ownPath(): string {
  return pathBelow(siteRoot(), location.href) ?? '';
}

// where nothing may be kept, no page is an old one
function ignoreRefused(fault: unknown): undefined {
  if (fault instanceof DOMException || fault instanceof ReferenceError) return undefined;
  throw fault;
}

/** Which procedure the page is of, and in which revision. */
function ownRevision(): Pick<PageFacts, 'procedure' | 'revision'> {
  const { procedure, revision } = document.body.dataset;
  return procedure === undefined ? {} : { procedure, revision: Number(revision) };
}

/** What is known where only the set itself is left: the site was asked when it was fetched. */
async function checkOfSet(): Promise<Check | undefined> {
  try {
    const root = siteRoot();
    const path = ownPath();
    const set = (await readSets(root)).find((one) => filesOfSet(one).some(([name]) => name === path));
    if (!set) return undefined;
    const at = Date.parse(set.keptAt);
    const { procedure, revision } = ownRevision();
    const procedures = procedure === undefined ? {} : { [procedure]: revision ?? 0 };
    return { status: { format: 1, version: '', procedures, withdrawn: [], sets: {} }, checkedAt: at, seenAt: at };
  } catch {
    // nothing can be kept on this phone: the page came from the site just now
    return undefined;
  }
}

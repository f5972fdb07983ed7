// The offer where jobs are known: to go on with one of them, said whose it is, by the new revision if there is one; to start
// again; or to start for another machine of the same kind, which leaves what is open as it is.

import { element } from '../element.js';
import { changedSince, closeJob, isOtherUnit, openJobs, pageNow, readHeads, readJob } from '../job/jobs.js';
import type { FactName, Job, JobPage, Journal } from '../job/journal.js';
import { findLost } from '../job/lost.js';
import { newJournal, openJournal } from '../job/open-journal.js';
import { StoreFault } from '../job/store.js';
import { wantedJob } from '../job/this-page.js';
import { sayMoment } from '../offline/say.js';
import { aside, deskOffer, offerButton, plainOffer, type Start } from './offer.js';
import { say } from './words.js';

interface Offering {
  readonly page: JobPage;
  readonly start: Start;
  readonly draw: () => void;
}

/** Shows it in its place. */
export async function offerJob(place: HTMLElement, offering: Offering): Promise<void> {
  const { page, start } = offering;
  const [jobs, lost] = await Promise.all([jobsFor(page), lostHere(page)]).catch(nothingKept);
  const plain = jobs.length === 0;
  place.replaceChildren(
    ...lost,
    ...(plain
      ? plainOffer(place, start)
      : [
          ...jobs.flatMap((job) => offered(job, offering)),
          ...otherOffers(jobs, offering),
          ...deskOffer(place.dataset, start),
        ]),
  );
}

/** The open jobs that may be meant; the one that a link asks for comes first, whatever machine the phone stands by now. */
async function jobsFor(page: JobPage): Promise<readonly Job[]> {
  const open = await openJobs(page);
  const wanted = wantedJob();
  const asked = wanted === undefined ? undefined : await readJob(wanted);
  if (asked?.state !== 'open') return open;
  return [asked, ...open.filter(({ id }) => id !== asked.id)];
}

// on a phone that keeps nothing there is nothing to go on with; the start says so
function nothingKept(fault: unknown): readonly [readonly Job[], readonly Node[]] {
  if (!(fault instanceof StoreFault)) throw fault;
  return [[], []];
}

/** Jobs of this page that the phone has cleared: said once more at each start, until a person has read it on the page of jobs. */
async function lostHere({ title, rig }: JobPage): Promise<readonly Node[]> {
  const lost = findLost(await readHeads()).filter((job) => job.title === title && job.rig === rig);
  return lost.map(({ begun }) => warning([say('cleared', { when: sayMoment(begun) })]));
}

function warning(words: readonly string[]): HTMLElement {
  return element('p', { class: 'walk-warning', role: 'alert' }, [words.join(' ')]);
}

/** A job to go on with: whose it is stands before the button that does. */
function offered(job: Job, { page, start }: Offering): readonly Node[] {
  const go = (words: string, revised?: true): HTMLElement =>
    offerButton(words, () => {
      void openJournal(page, job.id).then((journal: Journal) =>
        start({ mode: 'job', journal, ...(revised && { revised }) }),
      );
    });
  const whose = element('p', { class: 'walk-whose' }, [whoseWords(job)]);
  const other = isOtherUnit(job.page, page)
    ? [warning([say('other-unit', { job: unitOf(job.page), page: unitOf(page) })])]
    : [];
  if (changedSince(job, page)) {
    const words = say('changed', { before: pageNow(job).revision, now: page.revision });
    return [...other, whose, warning([words, say('changed-why')]), go(say('changed-go'), true)];
  }
  return [...other, whose, go(say('resume', { place: placeWords(job) }))];
}

/** To begin anew: with this machine, which closes the one job there is, or with another. */
function otherOffers(jobs: readonly Job[], { page, start, draw }: Offering): readonly Node[] {
  const [only, ...others] = jobs;
  const anew = (job: Job): HTMLElement =>
    offerButton(
      say('anew'),
      () => {
        if (confirm(say('anew-sure'))) void closeJob(job.id).then(draw);
      },
      'walk-other',
    );
  return [
    ...(only && others.length === 0 ? [anew(only)] : []),
    offerButton(say('beside'), () => start({ mode: 'job', journal: newJournal(page) }), 'walk-other'),
    aside(say('beside-why')),
  ];
}

/** `unit-17 · serial 70-00317 · work order 4711 · begun 3 Nov 2026, 10:12`. */
function whoseWords(job: Job): string {
  const { unit } = pageNow(job);
  const [serial, order] = [factOf(job, 'machine-serial') ?? pageNow(job).serial, factOf(job, 'work-order')];
  const named = [
    ...(unit === undefined ? [] : [unit]),
    ...(serial === undefined ? [] : [say('whose-serial', { serial })]),
    ...(order === undefined ? [] : [say('whose-order', { order })]),
  ];
  const who = named.length > 0 ? named : [say('whose-unknown')];
  return [...who, say('whose-begun', { when: sayMoment(job.begun) })].join(' · ');
}

function factOf({ entries }: Job, name: FactName): string | undefined {
  const said = entries.findLast((entry) => entry.kind === 'fact' && entry.name === name);
  return said?.kind === 'fact' && said.text !== '' ? said.text : undefined;
}

function unitOf({ unit, serial }: JobPage): string {
  return unit ?? serial ?? '';
}

// where it stands is where the last act led
function placeWords({ entries }: Job): string {
  const to = entries.flatMap((entry) => (entry.kind === 'leave' || entry.kind === 'back' ? [entry.to] : [])).at(-1);
  if (to === undefined || to === 'cautions') return say('place-cautions');
  if (to === 'before') return say('place-before');
  return to.startsWith('end:') ? say('place-end') : say('place-step', { label: to });
}

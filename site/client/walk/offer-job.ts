// The offer where jobs are known: to go on, by the new revision if there is one, or to start again.

import { element } from '../element.js';
import { changedSince, closeJob, pageNow, readHeads } from '../job/jobs.js';
import type { JobPage, Journal } from '../job/journal.js';
import { findLost } from '../job/lost.js';
import { openJournal } from '../job/open-journal.js';
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
  const journal = await openJournal(offering.page, wantedJob()).catch((fault: unknown) => {
    if (!(fault instanceof StoreFault)) throw fault;
    return undefined;
  });
  const isNew = !journal || journal.job.entries.length === 0 || journal.job.state === 'closed';
  const lost = journal ? await lostHere(offering.page) : [];
  place.replaceChildren(
    ...lost,
    ...(isNew
      ? plainOffer(place, offering.start)
      : [...offered(journal, offering), ...deskOffer(place.dataset, offering.start)]),
  );
}

/** Jobs of this page that the phone has cleared: said once more at each start, until a person has read it on the page of jobs. */
async function lostHere({ title, rig }: JobPage): Promise<readonly Node[]> {
  const lost = findLost(await readHeads()).filter((job) => job.title === title && job.rig === rig);
  return lost.map(({ begun }) =>
    element('p', { class: 'walk-warning', role: 'alert' }, [say('cleared', { when: sayMoment(begun) })]),
  );
}

function offered(journal: Journal, { page, start, draw }: Offering): readonly Node[] {
  const { job } = journal;
  const anew = offerButton(
    say('anew'),
    () => {
      if (confirm(say('anew-sure'))) void closeJob(job.id).then(draw);
    },
    'walk-other',
  );
  if (changedSince(job, page)) {
    const words = say('changed', { before: pageNow(job).revision, now: page.revision });
    return [
      element('p', { class: 'walk-warning', role: 'alert' }, [words, ' ', say('changed-why')]),
      offerButton(say('changed-go'), () => start({ mode: 'job', journal, revised: true })),
      anew,
    ];
  }
  return [
    offerButton(say('resume', { place: placeWords(journal) }), () => start({ mode: 'job', journal })),
    aside(say('resume-why', { when: sayMoment(job.begun) })),
    anew,
  ];
}

// where it stands is where the last act led
function placeWords({ job }: Journal): string {
  const to = job.entries.flatMap((entry) => (entry.kind === 'leave' || entry.kind === 'back' ? [entry.to] : [])).at(-1);
  if (to === undefined || to === 'cautions') return say('place-cautions');
  if (to === 'before') return say('place-before');
  return to.startsWith('end:') ? say('place-end') : say('place-step', { label: to });
}

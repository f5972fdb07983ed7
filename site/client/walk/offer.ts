// The offer at the head of a procedure's page: start, go on where a job stands, or enter readings for somebody at the
// telephone. What the walk itself needs is loaded when it is started.

import { element } from '../element.js';
import { changedSince, closeJob, pageNow } from '../job/jobs.js';
import type { Journal } from '../job/journal.js';
import { openJournal } from '../job/open-journal.js';
import { checkStorage } from '../job/storage.js';
import { StoreFault } from '../job/store.js';
import { thisPage, wantedJob } from '../job/this-page.js';
import type { StartWalk } from './start.js';
import { say } from './words.js';

/** Shows the offer; does nothing on pages without a walk. */
export async function offerWalk(): Promise<void> {
  const place = document.getElementById('walk-start');
  const page = thisPage();
  const { walk } = document.body.dataset;
  if (!place || !page || walk === undefined) return;
  const start = (options: Omit<StartWalk, 'page' | 'path'>): void => {
    void import('./start.js')
      .then(({ startWalk }) => startWalk({ ...options, page, path: walk }))
      .catch((fault: unknown) => {
        console.warn(fault);
        place.append(element('p', { role: 'alert' }, [say('broken-load')]));
      });
  };
  const draw = async (): Promise<void> => {
    const isPractice = new URLSearchParams(location.search).has('practice');
    const step = /^#step-(?:[A-Z]?\d[\d-]*)$/.test(location.hash)
      ? location.hash.slice(6).replaceAll('-', '.')
      : undefined;
    place.hidden = false;
    if (isPractice) {
      place.replaceChildren(
        big(say('start'), () => start({ mode: 'practice' })),
        aside(say('practice')),
      );
      return;
    }
    const journal = await openJournal(page, wantedJob()).catch(faultKind);
    place.replaceChildren(
      ...(typeof journal === 'string'
        ? [refused(journal), big(say('start'), () => start({ mode: 'job' }))]
        : offered(journal, { page, start, draw })),
      ...(step === undefined
        ? []
        : [
            small(say('start-desk', { label: step }), () => start({ mode: 'desk', at: step })),
            aside(say('start-desk-why')),
          ]),
    );
    if (typeof journal !== 'string') void warnOfStorage(place);
  };
  document.addEventListener('walk-closed', () => void draw());
  addEventListener('hashchange', () => {
    if (!document.body.classList.contains('walking')) void draw();
  });
  await draw();
}

function faultKind(fault: unknown): string {
  if (!(fault instanceof StoreFault)) throw fault;
  return fault.kind;
}

function refused(kind: string): HTMLElement {
  const why = kind === 'full' ? 'not-kept-full' : 'not-kept-refused';
  return element('p', { class: 'walk-warning', role: 'alert' }, [say('not-kept', { why: say(why) })]);
}

async function warnOfStorage(place: HTMLElement): Promise<void> {
  const kept = await checkStorage();
  if (kept === 'may-be-cleared') place.append(aside(say('maybe-kept')));
  if (kept === 'full' || kept === 'refused') place.prepend(refused(kept));
}

interface Offering {
  readonly page: NonNullable<ReturnType<typeof thisPage>>;
  readonly start: (options: Omit<StartWalk, 'page' | 'path'>) => void;
  readonly draw: () => Promise<void>;
}

function offered(journal: Journal, { page, start, draw }: Offering): readonly Node[] {
  const { job } = journal;
  if (job.entries.length === 0 || job.state === 'closed') {
    return [big(say('start'), () => start({ mode: 'job', journal })), aside(say('start-why'))];
  }
  const anew = small(say('anew'), () => {
    if (confirm(say('anew-sure'))) void closeJob(job.id).then(draw);
  });
  if (changedSince(job, page)) {
    const words = say('changed', { before: pageNow(job).revision, now: page.revision });
    return [
      element('p', { class: 'walk-warning', role: 'alert' }, [words, ' ', say('changed-why')]),
      big(say('changed-go'), () => start({ mode: 'job', journal, revised: true })),
      anew,
    ];
  }
  return [
    big(say('resume', { place: placeWords(journal) }), () => start({ mode: 'job', journal })),
    aside(say('resume-why', { when: new Date(job.begun).toLocaleString(document.documentElement.lang) })),
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

function big(words: string, act: () => void): HTMLElement {
  const made = element('button', { type: 'button', class: 'walk-go' }, [words]);
  made.addEventListener('click', act);
  return made;
}

function small(words: string, act: () => void): HTMLElement {
  const made = element('button', { type: 'button', class: 'walk-other' }, [words]);
  made.addEventListener('click', act);
  return made;
}

function aside(words: string): HTMLElement {
  return element('p', { class: 'aside' }, [words]);
}

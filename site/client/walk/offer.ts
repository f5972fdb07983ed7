// The offer at the head of a procedure's page: start, go on where a job stands, or enter readings for somebody at the
// telephone. Small, as every page fetches it: what a job or a walk needs is fetched when there is one.

import { element } from '../element.js';
import { mayHaveJobs, thisPage, wantedJob } from '../job/this-page.js';
import type { StartWalk } from './start.js';

/** Starts a walk by this page. */
export type Start = (options: Omit<StartWalk, 'page' | 'path' | 'place' | 'offer'>) => void;

/** Shows the offer; does nothing on pages without a walk. */
export function offerWalk(): void {
  const place = document.getElementById('walk-start');
  const page = thisPage();
  const { walk } = document.body.dataset;
  if (!place || !page || walk === undefined) return;
  const start: Start = (options) => {
    void import('./start.js')
      .then(({ startWalk }) => startWalk({ ...options, page, path: walk, place, offer }))
      .catch((fault: unknown) => {
        console.warn(fault);
        place.append(element('p', { role: 'alert' }, [place.dataset.broken ?? '']));
      });
  };
  const offer = (): void => {
    void import('./offer-job.js').then(({ offerJob }) => offerJob(place, { page, start, draw }));
  };
  const draw = (): void => {
    place.hidden = false;
    if (!isPractice() && (wantedJob() !== undefined || mayHaveJobs())) offer();
    else place.replaceChildren(...plainOffer(place, start));
  };
  document.addEventListener('walk-closed', draw);
  addEventListener('hashchange', () => {
    if (!document.body.classList.contains('walking')) draw();
  });
  draw();
}

/** What is offered where no job is known: to start, to practise, to enter readings from the step that a link leads to. */
export function plainOffer({ dataset }: HTMLElement, start: Start): readonly Node[] {
  if (isPractice()) {
    return [offerButton(dataset.start ?? '', () => start({ mode: 'practice' })), aside(dataset.practice ?? '')];
  }
  return [
    offerButton(dataset.start ?? '', () => start({ mode: 'job' })),
    aside(dataset.why ?? ''),
    ...deskOffer(dataset, start),
  ];
}

function isPractice(): boolean {
  return new URLSearchParams(location.search).has('practice');
}

/** For somebody who was told a step on the telephone. */
export function deskOffer(dataset: DOMStringMap, start: Start): readonly Node[] {
  const step = /^#step-([A-Z]?\d[\d-]*)$/.exec(location.hash)?.[1]?.replaceAll('-', '.');
  if (step === undefined) return [];
  const words = (dataset.desk ?? '').replace('#', step);
  return [offerButton(words, () => start({ mode: 'desk', at: step }), 'walk-other'), aside(dataset.deskWhy ?? '')];
}

/** A button of the offer. */
export function offerButton(words: string, act: () => void, kind = 'walk-go'): HTMLElement {
  const made = element('button', { type: 'button', class: kind }, [words]);
  made.addEventListener('click', act);
  return made;
}

/** A line under a button. */
export function aside(words: string): HTMLElement {
  return element('p', { class: 'aside' }, [words]);
}

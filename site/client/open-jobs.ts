// At the head of a home: the jobs that are open on its pages, each a way back to where it stands. Whoever opens the book
// after a flat battery does not look for them.

import { element } from './element.js';
import { listJobs, pageNow, standsAt } from './job/jobs.js';
import { StoreFault } from './job/store.js';
import { resumeLink } from './job/this-page.js';
import { say, sayPlace } from './jobs-page/words.js';
import { sayMoment } from './offline/say.js';

/** Shows those of a folder of the site, the latest first, before a part of the page. */
export async function showOpenJobs(folder: string, before: HTMLElement): Promise<void> {
  const open = (await listJobs().catch(noneOf)).filter(
    (job) => job.state === 'open' && job.entries.length > 0 && pageNow(job).path.startsWith(folder),
  );
  document.getElementById('open-jobs')?.remove();
  if (open.length === 0) return;
  const root = document.body.dataset.root ?? '';
  const rows = open
    .toSorted((a, b) => lastOf(b).localeCompare(lastOf(a)))
    .map((job) => {
      const page = pageNow(job);
      const who = [page.unit ?? page.serial, say('stands', { place: sayPlace(standsAt(job)) }), sayMoment(lastOf(job))];
      return element('li', {}, [
        element('a', { href: root + resumeLink({ id: job.id, page }) }, [
          element('b', {}, [`${say('resume')}: ${page.title}`]),
          element('span', { class: 'aside' }, [who.filter((part) => part !== undefined).join(' · ')]),
        ]),
      ]);
    });
  before.before(element('ul', { class: 'entries doors', id: 'open-jobs' }, rows));
}

function lastOf({ begun, entries }: { readonly begun: string; readonly entries: readonly { readonly at: string }[] }) {
  return entries.at(-1)?.at ?? begun;
}

// on a phone that keeps no jobs there is none to go back to
function noneOf(fault: unknown): readonly never[] {
  if (fault instanceof StoreFault) return [];
  throw fault;
}

// The list of jobs on this phone: whether it keeps anything, what it lost, open jobs, closed ones, pages found wrong.

import { element } from '../element.js';
import { askFirst } from '../job/dialog.js';
import { deleteJob, listJobs, pageNow, standsAt } from '../job/jobs.js';
import type { Job } from '../job/journal.js';
import { findLost, type LostJob, unnoteJob } from '../job/lost.js';
import { recordOf } from '../job/record.js';
import { deleteReport, listReports } from '../job/reports.js';
import { checkStorage, type StorageState, spaceUsed } from '../job/storage.js';
import type { Report } from '../job/store.js';
import { resumeLink } from '../job/this-page.js';
import { sayBytes, sayMoment } from '../offline/say.js';
import { aside, button, section, type View } from './parts.js';
import { sendReports } from './send.js';
import { say, sayPlace } from './words.js';

/** The whole list. `redraw` is called after something in it was deleted. */
export async function drawList(redraw: () => Promise<void>): Promise<View> {
  const state = await checkStorage();
  if (state === 'refused') return { title: '', children: storagePanel(state) };
  const [jobs, reports, used] = await Promise.all([listJobs(), listReports(), spaceUsed()]);
  const list = (wanted: Job['state'], none: string): HTMLElement => {
    const found = jobs.filter((job) => job.state === wanted);
    return found.length === 0
      ? element('p', {}, [none])
      : element(
          'ul',
          { class: 'entries' },
          found.map((job) => jobEntry(job, redraw)),
        );
  };
  return {
    title: '',
    children: [
      ...storagePanel(state),
      ...lostPanel(findLost(jobs), redraw),
      ...section(say('open'), [list('open', say('open-none'))]),
      ...section(say('closed'), [list('closed', say('closed-none'))]),
      ...section(say('wrong'), reportList(reports, redraw)),
      element('p', { class: 'aside used' }, [say('used', { size: sayBytes(used) })]),
    ],
  };
}

/** Whether the phone keeps what is written down, said before anything is. */
function storagePanel(state: StorageState): readonly HTMLElement[] {
  if (state === 'kept') return [];
  const text = element('p', {}, [say(`kept-${state}`)]);
  if (state === 'may-be-cleared') return [element('div', { class: 'storage-note' }, [text])];
  const strong = element('p', {}, [element('b', {}, [say(`kept-${state}`)])]);
  return [element('div', { class: 'stop', role: 'alert' }, [strong, element('p', {}, [say(`kept-${state}-help`)])])];
}

function lostPanel(lost: readonly LostJob[], redraw: () => Promise<void>): readonly HTMLElement[] {
  if (lost.length === 0) return [];
  const rows = lost.map(({ title, rig, begun }) =>
    element('li', {}, [`${title} · ${rig} · ${say('begun', { when: sayMoment(begun) })}`]),
  );
  const seen = button(say('lost-seen'), () => {
    for (const { id } of lost) unnoteJob(id);
    void redraw();
  });
  return [
    element('div', { class: 'stop', role: 'alert' }, [
      element('p', {}, [element('b', {}, [say('lost')])]),
      element('ul', {}, rows),
      seen,
    ]),
  ];
}

function jobEntry(job: Job, redraw: () => Promise<void>): HTMLElement {
  const page = pageNow(job);
  const { end } = recordOf(job);
  const isOpen = job.state === 'open';
  const root = document.body.dataset.root ?? '';
  const record = `#record=${job.id}`;
  const where = isOpen
    ? say('stands', { place: sayPlace(standsAt(job)) })
    : `${say(`end-${end ?? 'none'}`)} · ${job.sent ? say('sent', { when: sayMoment(job.sent) }) : say('not-sent')}`;
  const title = element('a', { href: isOpen ? root + resumeLink({ id: job.id, page }) : record }, [
    element('b', {}, [page.title]),
    aside([page.rig, page.unit ?? page.serial ?? '']),
    aside([where]),
    aside([say('begun', { when: sayMoment(job.begun) }), ...contents(job).slice(0, 1)]),
  ]);
  const remove = button(say('delete'), () => void removeJob(job, redraw), 'quiet');
  remove.setAttribute('aria-label', `${say('delete')}: ${page.title}, ${sayMoment(job.begun)}`);
  return element('li', isOpen ? { 'data-of': page.procedure } : {}, [
    title,
    element('p', { class: 'job-actions' }, [
      isOpen ? element('a', { href: record, 'aria-label': `${say('record')}: ${page.title}` }, [say('record')]) : '',
      remove,
    ]),
  ]);
}

/** What a job holds, in words: how many readings, photos, notes; nothing where it is empty. */
function contents({ entries }: Job): readonly string[] {
  const count = (kind: string): number => entries.filter((entry) => entry.kind === kind).length;
  const kinds = ['read', 'cell', 'photo', 'note', 'tick'] as const;
  return kinds.filter((kind) => count(kind) > 0).map((kind) => say(`count-${kind}`, { count: count(kind) }));
}

async function removeJob(job: Job, redraw: () => Promise<void>): Promise<void> {
  const sure = await askFirst({
    title: say('delete-sure'),
    lines: [
      [pageNow(job).title, pageNow(job).rig, pageNow(job).unit ?? ''].filter((part) => part !== '').join(' · '),
      ...(contents(job).length > 0 ? [say('delete-what', { what: contents(job).join(', ') })] : []),
      job.sent ? say('delete-sent', { when: sayMoment(job.sent) }) : say('delete-unsent'),
    ],
    yes: say('delete-do'),
    no: say('cancel'),
  });
  if (!sure) return;
  await deleteJob(job.id);
  await redraw();
}

function reportList(reports: readonly Report[], redraw: () => Promise<void>): readonly Node[] {
  if (reports.length === 0) return [element('p', {}, [say('wrong-none')])];
  const rows = reports.map((report) => {
    const { page, step, text, at, key = 0 } = report;
    const remove = button(say('delete'), () => void removeReport(key, text, redraw), 'quiet');
    remove.setAttribute('aria-label', `${say('delete')}: ${page.title}, ${sayMoment(at)}`);
    const facts = [page.rig, say('revision', { revision: page.revision }), step ? say('step', { label: step }) : ''];
    return element('li', { class: 'report' }, [
      element('b', {}, [page.title]),
      aside(facts),
      element('p', {}, [text]),
      aside([sayMoment(at)]),
      element('p', { class: 'job-actions' }, [remove]),
    ]);
  });
  return [element('ul', { class: 'entries' }, rows), sendReports(reports)];
}

async function removeReport(key: number, text: string, redraw: () => Promise<void>): Promise<void> {
  const sure = await askFirst({
    title: say('delete-report'),
    lines: [text],
    yes: say('delete-do'),
    no: say('cancel'),
  });
  if (!sure) return;
  await deleteReport(key);
  await redraw();
}

// One record as a page: what was found, what was left, what was done, by whom; to fill in, to close, to amend, to send.

import { printedUnits } from '../../../src/emit/printed-units.js';
import type { JobRecord } from '../../../src/model/job-record.js';
import { element } from '../element.js';
import { readJob } from '../job/jobs.js';
import type { Job } from '../job/journal.js';
import { recordOf } from '../job/record.js';
import { resumeLink } from '../job/this-page.js';
import { sayMoment } from '../offline/say.js';
import { amendPanel } from './amend.js';
import { closePanel, factsPanel, factsShown } from './facts.js';
import { aside, fold, pairs, section, type View } from './parts.js';
import { drawPhotos } from './pictures.js';
import { drawReadings, drawValues } from './readings-view.js';
import { sendPanel } from './send.js';
import { say, sayMark, sayPlace } from './words.js';

/** The record of a job. `redraw` is called after it was closed or amended. */
export async function drawRecord(id: string, redraw: () => Promise<void>): Promise<View> {
  const job = await readJob(id);
  const all = element('p', { class: 'all-jobs' }, [element('a', { href: '#' }, [say('all-jobs')])]);
  if (!job) return { title: say('record'), children: [all, element('p', { class: 'stop' }, [say('no-job')])] };
  const record = recordOf(job);
  const { panel, renew } = sendPanel(job);
  const changed = async (): Promise<void> => {
    const now = await readJob(id);
    if (now) renew(now);
  };
  return {
    title: say('record-of', { title: record.page.title }),
    children: [
      all,
      ...(job.state === 'open' ? [openNote(job, record)] : []),
      headOf(record),
      ...(job.state === 'closed' ? factsShown(job, record) : []),
      ...section(say('values'), drawValues(record)),
      ...adjustments(record),
      ...worksheets(record),
      ...inspections(record),
      ...(await photosOf(record)),
      ...section(say('page-wrong'), notesList(record.wrong)),
      ...(job.state === 'open' ? factsPanel(job, { changed, redraw }) : []),
      ...amendments(record),
      panel,
      ...(job.state === 'open' ? closePanel(job, record, redraw) : amendPanel(job, redraw)),
      ...details(record),
    ],
  };
}

function openNote({ id }: Job, { page, rig, end }: JobRecord): HTMLElement {
  const root = document.body.dataset.root ?? '';
  const href = root + resumeLink({ id, page: { ...page, rig } });
  // at its end there is nothing to go on with: the record wants filling in and closing
  if (end !== undefined) return element('p', { class: 'open-note' }, [say('open-ended')]);
  const resume = element('a', { class: 'button', href }, [say('resume')]);
  return element('div', { class: 'open-note' }, [element('p', {}, [say('open-record')]), resume]);
}

function headOf(record: JobRecord): HTMLElement {
  const { page, begunBy } = record;
  const revised = begunBy.content !== page.content;
  return element('section', {}, [
    pairs([
      [say('procedure'), `${page.title}, ${say('revision', { revision: page.revision })}`],
      ['', revised ? say('begun-by', { revision: begunBy.revision, now: page.revision }) : ''],
      [say('rig'), record.rig],
      [say('unit'), [page.unit, page.serial].filter((one) => one !== undefined).join(' · ')],
      [say('code'), `${page.code.slice(0, 3)}\u00a0${page.code.slice(3)}`],
      [say('begun-at'), sayMoment(record.begun)],
      [say('closed-at'), record.closed === undefined ? '' : sayMoment(record.closed)],
      [say('end'), say(`end-${record.end ?? 'none'}`)],
    ]),
  ]);
}

function adjustments({ adjustments: turns }: JobRecord): readonly HTMLElement[] {
  const rows = turns.map(({ step, label, text, total, unit, at }) =>
    element('li', {}, [
      element('b', {}, [label]),
      element('span', { class: 'turned' }, [printedUnits(say('turned', { text, total, unit }))]),
      aside([say('step', { label: step }), sayMoment(at)]),
    ]),
  );
  return section(say('adjustments'), rows.length === 0 ? [] : [element('ul', { class: 'record-rows' }, rows)]);
}

/** The cells that count, a table for each worksheet, its columns in the order in which they were first filled. */
function worksheets({ cells }: JobRecord): readonly HTMLElement[] {
  const counting = cells.filter(({ corrected }) => !corrected);
  const names = [...new Set(counting.map(({ step, worksheet }) => `${step} ${worksheet}`))];
  const tables = names.flatMap((name) => {
    const own = counting.filter(({ step, worksheet }) => `${step} ${worksheet}` === name);
    const columns = [
      ...new Set(cells.filter((cell) => own[0]?.worksheet === cell.worksheet).map(({ column }) => column)),
    ];
    const rows = [...new Set(own.map(({ row }) => row))].sort((a, b) => a - b);
    const head = [say('row'), ...columns.map((column) => columnName(cells, column))].map((text) =>
      element('th', { scope: 'col' }, [text]),
    );
    const body = rows.map((row) =>
      element('tr', {}, [
        element('th', { scope: 'row' }, [String(row)]),
        ...columns.map((column) =>
          element('td', {}, [cellText(own.find((cell) => cell.row === row && cell.column === column))]),
        ),
      ]),
    );
    const table = element('table', {}, [element('thead', {}, [element('tr', {}, head)]), element('tbody', {}, body)]);
    const title = `${say('step', { label: own[0]?.step ?? '' })}: ${(own[0]?.worksheet ?? '').replaceAll('_', ' ')}`;
    return [
      element('h3', {}, [title]),
      element('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': title }, [table]),
    ];
  });
  return section(say('worksheets'), tables);
}

/** What stands in a cell: of what was chosen, what the page called it. */
function cellText(cell: JobRecord['cells'][number] | undefined): string {
  return cell?.word ?? cell?.text ?? '';
}

/** What a column is called, with its unit. */
function columnName(cells: JobRecord['cells'], column: string): string {
  const { label = column.replaceAll('_', ' '), unit = '' } = cells.findLast((cell) => cell.column === column) ?? {};
  return unit === '' ? label : `${label}, ${unit}`;
}

function inspections({ marks, notes }: JobRecord): readonly HTMLElement[] {
  const rows = marks.map(({ step, mark, at }) =>
    element('li', {}, [element('b', {}, [sayMark(mark)]), aside([say('step', { label: step }), sayMoment(at)])]),
  );
  return [
    ...section(say('marks'), rows.length === 0 ? [] : [element('ul', { class: 'record-rows' }, rows)]),
    ...section(say('notes'), notesList(notes)),
  ];
}

function notesList(notes: JobRecord['notes']): readonly HTMLElement[] {
  if (notes.length === 0) return [];
  const rows = notes.map(({ step, text, at }) =>
    element('li', {}, [
      element('span', {}, [text]),
      aside([step === undefined ? '' : say('step', { label: step }), sayMoment(at)]),
    ]),
  );
  return [element('ul', { class: 'record-rows' }, rows)];
}

async function photosOf({ photos }: JobRecord): Promise<readonly HTMLElement[]> {
  return section(say('photos'), await drawPhotos(photos));
}

function amendments({ amendments: added }: JobRecord): readonly HTMLElement[] {
  const rows = added.map(({ kind, name, text, who, why, at }) =>
    element('li', {}, [
      kind === 'fact' && name ? element('b', {}, [`${say(`fact-${name}`)}: `]) : '',
      element('span', {}, [text]),
      aside([say('amended', { who, why, when: sayMoment(at) })]),
    ]),
  );
  return section(say('amendments'), rows.length === 0 ? [] : [element('ul', { class: 'record-rows' }, rows)]);
}

/** What is looked up rarely, folded: conditions, every reading, the way through the steps. */
function details(record: JobRecord): readonly HTMLElement[] {
  const ticks = record.ticks
    .filter(({ corrected }) => !corrected)
    .map(({ words, met, at }) => element('li', {}, [words, aside([met ? '' : say('taken-back'), sayMoment(at)])]));
  const ways = record.ways
    .filter(({ step }) => step !== 'cautions')
    .map(({ step, words = '', by, to, at, answer = '' }) =>
      element('li', {}, [
        element('span', {}, [`${sayPlace(step)}${words === '' ? '' : `: ${words}`}`]),
        aside([answer, say(by === 'back' ? 'way-back' : 'way-to', { place: sayPlace(to) }), sayMoment(at)]),
      ]),
    );
  const list = (heading: string, rows: readonly HTMLElement[], kind = ''): readonly HTMLElement[] =>
    rows.length === 0 ? [] : [fold(heading, [element('ul', { class: 'record-rows' }, rows)], kind)];
  return [
    element('section', { class: 'record-details' }, [
      ...list(say('ticks'), ticks),
      ...list(say('all-readings'), drawReadings(record)),
      ...list(say('ways'), ways, 'ways'),
    ]),
  ];
}

// What a person says of a job: a form while it is open, a list once it is closed; and closing it.

import { isElsewhere } from '../../../src/emit/page-serials.js';
import type { JobRecord } from '../../../src/model/job-record.js';
import { element } from '../element.js';
import { askFirst } from '../job/dialog.js';
import { addToJob, closeJob, pageNow } from '../job/jobs.js';
import type { FactName, Job } from '../job/journal.js';
import { recordOf } from '../job/record.js';
import { StoreFault } from '../job/store.js';
import { sayFault } from '../job/words.js';
import { button, pairs, section } from './parts.js';
import { drawPicture, fromDataUrl } from './pictures.js';
import { signaturePad } from './signature.js';
import { say, sayDay } from './words.js';

/** The facts in the order they are asked for; the signature has a form of its own. */
export const factNames = [
  'who',
  'work-order',
  'engine-hours',
  'machine-serial',
  'header-serial',
  'software-before',
  'software-after',
  'instrument',
  'instrument-calibrated',
] as const satisfies readonly FactName[];

/** What is called after a fact was kept, and after the whole is to be drawn anew. */
export interface FactsEvents {
  readonly changed: () => Promise<void>;
  readonly redraw: () => Promise<void>;
}

function factOf({ facts, page }: JobRecord, name: FactName): string {
  const given = facts.findLast((fact) => fact.name === name)?.text;
  return given ?? (name === 'machine-serial' ? page.serial : undefined) ?? '';
}

/** The form of an open job: each field is kept as it is left. */
export function factsPanel(job: Job, { changed, redraw }: FactsEvents): readonly HTMLElement[] {
  const record = recordOf(job);
  const status = element('p', { class: 'status', role: 'status' }, []);
  const keep = async (name: FactName, text: string): Promise<void> => {
    try {
      await addToJob(job.id, { kind: 'fact', name, text });
      status.textContent = say('kept');
      await changed();
    } catch (fault) {
      if (!(fault instanceof StoreFault)) throw fault;
      status.textContent = sayFault(fault.kind);
    }
  };
  const fields = factNames.map((name) => {
    const input = element('input', { id: `fact-${name}`, ...inputKind(name) }, []) as HTMLInputElement;
    input.value = factOf(record, name);
    input.addEventListener('change', () => void keep(name, input.value.trim()));
    const label = element('label', { for: input.id }, [say(`fact-${name}`)]);
    return element('div', {}, [label, input, ...(name === 'machine-serial' ? [serialNote(job, input)] : [])]);
  });
  const signed = factOf(record, 'signature') !== '';
  const signature = signed
    ? [...signatureOf(record), button(say('sign-clear'), () => void keep('signature', '').then(redraw), 'quiet')]
    : [signaturePad((picture) => void keep('signature', picture).then(redraw))];
  return section(
    say('facts'),
    [
      element('p', { class: 'aside' }, [say('facts-why')]),
      element('div', { class: 'fields' }, fields),
      status,
      element('h3', {}, [say('fact-signature')]),
      ...signature,
    ],
    'facts',
  );
}

/** Says under the field that no machine of the page has that serial; what was typed is kept all the same. */
function serialNote(job: Job, input: HTMLInputElement): HTMLElement {
  const note = element('p', { class: 'status', id: `${input.id}-note`, role: 'status' }, []);
  const update = (): void => {
    note.textContent = serialRemark(job, input.value.trim());
  };
  input.setAttribute('aria-describedby', note.id);
  input.addEventListener('change', update);
  update();
  return note;
}

/** What is to be said of a serial that is none of the page's; empty where it is one, or where the book does not say. */
export function serialRemark(job: Job, serial: string): string {
  const { serials } = pageNow(job);
  return serials && isElsewhere(serials, serial) ? say('serial-elsewhere', { serial, range: serials.words }) : '';
}

function inputKind(name: FactName): Readonly<Record<string, string>> {
  if (name === 'instrument-calibrated') return { type: 'date' };
  const plain = { type: 'text', autocomplete: name === 'who' ? 'name' : 'off' };
  return name === 'engine-hours' ? { ...plain, inputmode: 'decimal' } : plain;
}

/** The facts of a closed job; those that were not given are left out. */
export function factsShown(job: Job, record: JobRecord): readonly HTMLElement[] {
  const names: readonly FactName[] = ['who', 'skill', ...factNames.slice(1)];
  const rows = names.map((name) => [shortName(name), shownFact(record, name)] as const);
  const given = rows.filter(([, text]) => text !== '');
  const signature = factOf(record, 'signature') === '' ? [] : [say('fact-signature'), ...signatureOf(record)];
  const remark = serialRemark(job, factOf(record, 'machine-serial'));
  return section(say('facts'), [
    ...(given.length === 0 ? [] : [pairs(given)]),
    ...(remark === '' ? [] : [element('p', { class: 'status' }, [remark])]),
    ...(signature.length === 0 ? [] : [element('div', { class: 'signed' }, signature)]),
  ]);
}

/** A day and a skill in the words of the page; all else as it was written. */
function shownFact(record: JobRecord, name: FactName): string {
  const text = factOf(record, name);
  if (name === 'skill') return text === 'operator' || text === 'technician' ? say(`skill-${text}`) : text;
  return name === 'instrument-calibrated' && text !== '' ? sayDay(text) : text;
}

function shortName(name: FactName): string {
  return name === 'instrument' ? say('short-instrument') : say(`fact-${name}`);
}

/** The signature as a picture; it comes a moment later than the rest. */
function signatureOf(record: JobRecord): readonly HTMLElement[] {
  const blob = fromDataUrl(factOf(record, 'signature'));
  if (!blob) return [];
  const place = element('div', { class: 'signature' }, []);
  void drawPicture(blob, say('signed')).then((drawn) => {
    if (drawn) place.append(drawn);
  });
  return [place];
}

/** Closes the job, after asking. */
export function closePanel(job: Job, record: JobRecord, redraw: () => Promise<void>): readonly HTMLElement[] {
  const status = element('p', { class: 'status', role: 'status' }, []);
  const close = button(say('close'), () => {
    void askFirst({
      title: say('close-sure'),
      lines: [...(record.end === undefined ? [say('close-no-end')] : []), say('close-why')],
      yes: say('close-do'),
      no: say('close-not'),
    }).then(async (sure) => {
      if (!sure) return;
      try {
        await closeJob(job.id);
        await redraw();
      } catch (fault) {
        if (!(fault instanceof StoreFault)) throw fault;
        status.textContent = sayFault(fault.kind);
      }
    });
  });
  return [element('div', { class: 'closing' }, [close, status])];
}

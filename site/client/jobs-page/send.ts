// How a record leaves the phone: by what the phone offers for sending, or as a file; never by itself.

import { element } from '../element.js';
import { noteSent } from '../job/jobs.js';
import type { Job } from '../job/journal.js';
import { readPhoto } from '../job/photos.js';
import { recordOf } from '../job/record.js';
import { recordCsv, recordJson, recordName } from '../job/record-file.js';
import { reportsJson } from '../job/reports.js';
import type { Report } from '../job/store.js';
import { sayMoment } from '../offline/say.js';
import { button } from './parts.js';
import { say } from './words.js';

/** A picture as text that fits into a file. */
export function asDataUrl(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(reader.error));
    reader.readAsDataURL(blob);
  });
}

async function jsonOf(job: Job): Promise<string> {
  const record = recordOf(job);
  const pictures = await Promise.all(
    record.photos.map(async ({ photo }) => {
      const blob = await readPhoto(photo);
      return blob ? ([[photo, await asDataUrl(blob)]] as const) : [];
    }),
  );
  return recordJson(record, new Map(pictures.flat()));
}

function saveFile(name: string, content: string, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  element('a', { href: url, download: name }, []).click();
  // the browser has to have begun to read it
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** What can be sent from here. Phones pass text files on; of JSON by its own name many do not (common practice, no source). */
function sharable(name: string, content: string): { readonly files: File[] } | undefined {
  const files = [new File([content], `${name}.json.txt`, { type: 'text/plain' })];
  return navigator.canShare?.({ files }) ? { files } : undefined;
}

/** Hands something to the phone's own sending. `false`: it could not; a person who changes their mind is no failure. */
async function share(what: ShareData): Promise<'sent' | 'not' | 'failed'> {
  try {
    await navigator.share(what);
    return 'sent';
  } catch (error) {
    return error instanceof DOMException && error.name === 'AbortError' ? 'not' : 'failed';
  }
}

/** The ways out for the record of a job. The file is made beforehand: phones let a page send only right after a press. */
export function sendPanel(job: Job): { readonly panel: HTMLElement; readonly renew: (job: Job) => void } {
  const status = element('p', { class: 'status', role: 'status' }, []);
  const name = recordName(recordOf(job));
  let [now, json] = [job, ''];
  const sent = (): void => void noteSent(job.id);
  const saveJson = (): void => {
    saveFile(`${name}.json`, json, 'application/json');
    sent();
  };
  const send = button(say('send'), () => {
    const what = sharable(name, json);
    if (!what) return;
    void share({ ...what, title: name }).then((end) => {
      if (end === 'sent') sent();
      if (end !== 'failed') return;
      saveJson();
      status.textContent = say('send-failed');
    });
  });
  const save = button(say('save-json'), saveJson, 'quiet');
  const table = button(
    say('save-csv'),
    () => {
      saveFile(`${name}.csv`, recordCsv(recordOf(now)), 'text/csv');
      sent();
    },
    'quiet',
  );
  const print = button(say('print'), () => window.print(), 'quiet');
  const renew = (next: Job): void => {
    now = next;
    void jsonOf(next).then((made) => {
      json = made;
      send.hidden = sharable(name, made) === undefined;
      send.disabled = save.disabled = false;
    });
  };
  send.hidden = true;
  save.disabled = true;
  renew(job);
  const why = element('p', { class: 'aside' }, [say('send-why')]);
  return { panel: element('div', { class: 'send' }, [send, save, table, print, why, status]), renew };
}

/** The ways out for pages found wrong: as words in a message, or as a file. */
export function sendReports(reports: readonly Report[]): HTMLElement {
  const text = reports
    .map(({ page, step, text: said, at }) =>
      [
        `${page.title} · ${page.rig}`,
        `${say('code')} ${page.code} · ${say('revision', { revision: page.revision })}${step ? ` · ${say('step', { label: step })}` : ''}`,
        said,
        sayMoment(at),
      ].join('\n'),
    )
    .join('\n\n');
  const save = (): void => saveFile('wrong-pages.json', reportsJson(reports), 'application/json');
  const send = button(say('send-reports'), () => {
    void share({ title: say('wrong'), text }).then((end) => {
      if (end === 'failed') save();
    });
  });
  send.hidden = typeof navigator.share !== 'function';
  return element('div', { class: 'send' }, [send, button(say('save-reports'), save, 'quiet')]);
}

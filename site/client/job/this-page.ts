// Which page this is, for a job that is done by it: read from what the page says of itself.

import type { PageSerials } from '../../../src/emit/page-serials.js';
import { readRigs } from '../rigs.js';
import type { JobPage } from './journal.js';

/** This page as jobs keep it; `undefined` on pages that are no procedure. */
export function thisPage(): JobPage | undefined {
  const { lang } = document.documentElement;
  const { procedure, title, revision, content, code, path, rig } = document.body.dataset;
  const serials = readSerials(document.body.dataset.serials);
  if (procedure === undefined || content === undefined || path === undefined) return undefined;
  return {
    code: code ?? '',
    procedure,
    title: title ?? '',
    revision: Number(revision),
    content,
    path,
    rig: rig ?? '',
    language: lang,
    ...(serials && { serials }),
    ...unitOf(path.startsWith(`${lang}/`) ? path.slice(lang.length + 1) : path),
  };
}

/** The serials that a page says it is for. */
export function readSerials(text: string | undefined): PageSerials | undefined {
  return text === undefined ? undefined : (JSON.parse(text) as PageSerials);
}

/** What the phone was told of the machine it stands by: of those of this home the one used last. */
function unitOf(path: string): Pick<JobPage, 'unit' | 'serial'> {
  const rig = readRigs().find(({ folder }) => path.startsWith(folder));
  const serial = rig?.known.serial;
  return { ...(rig?.unit !== undefined && { unit: rig.unit }), ...(serial !== undefined && { serial }) };
}

/** The job that a link asks for: `…/learn/#job=ID`. */
export function wantedJob(): string | undefined {
  return /^#job=([\da-f]+)$/.exec(location.hash)?.[1];
}

/** Whether the phone may have jobs: each leaves a note outside the store; where notes cannot be read the store is asked. */
export function mayHaveJobs(): boolean {
  try {
    return Object.keys(localStorage).some(
      (key) => key.startsWith('stepgauge-jobs ') && localStorage.getItem(key) !== '[]',
    );
  } catch {
    return true;
  }
}

/** The page of jobs in the language of a page. */
export function jobsLink({ path, language }: JobPage): string {
  return `${document.body.dataset.root ?? ''}${path.startsWith(`${language}/`) ? `${language}/` : ''}jobs.html`;
}

/** The record of a job, on the page of jobs. */
export function recordLink({ id, page }: { readonly id: string; readonly page: JobPage }): string {
  return `${jobsLink(page)}#record=${id}`;
}

/** A link from the site's root that resumes a job on its page. */
export function resumeLink({ id, page }: { readonly id: string; readonly page: JobPage }): string {
  return `${page.path}#job=${id}`;
}

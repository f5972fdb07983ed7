// Which page this is, for a job that is done by it: read from what the page says of itself.

import type { JobPage } from './journal.js';

/** This page as jobs keep it; `undefined` on pages that are no procedure. */
export function thisPage(): JobPage | undefined {
  const { procedure, title, revision, content, code, path, rig } = document.body.dataset;
  if (procedure === undefined || content === undefined || path === undefined) return undefined;
  return {
    code: code ?? '',
    procedure,
    title: title ?? '',
    revision: Number(revision),
    content,
    path,
    rig: rig ?? '',
    language: document.documentElement.lang,
  };
}

/** The job that a link asks for: `…/learn/#job=ID`. */
export function wantedJob(): string | undefined {
  return /^#job=([\da-f]+)$/.exec(location.hash)?.[1];
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

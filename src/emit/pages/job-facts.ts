// What a page says of itself for the jobs that are done by it: the same facts that a record of such a job bears.

import { homeName, languageFolder, type Page } from './context.js';
import { describeRig } from './rig-words.js';
import type { Version } from './site-map.js';

type Facts = Readonly<Record<`data-${string}`, string>>;

/** The facts of a procedure's page, as attributes of its body. */
export function jobFacts(page: Page, version: Version): Facts {
  const { voice, site } = page;
  const { procedure, hash } = version.variant;
  return {
    'data-procedure': procedure.id,
    'data-title': voice.plain(procedure.title),
    'data-revision': String(procedure.revision),
    'data-content': hash,
    'data-code': version.code,
    'data-path': languageFolder(site, voice.language) + version.folder,
    'data-rig': sayRig(page, version),
  };
}

/** `Tarn 40 · 12-row header, 20 in rows · with lateral tilt`: the home, and what the page is only for. */
function sayRig(page: Page, { rigs }: Version): string {
  const { home, voice } = page;
  if (!home) return '';
  const phrases = rigs.map((rig) => describeRig(rig, home.machine, voice));
  const isForAll = phrases.some((phrase) => phrase === '');
  return [homeName(page, home), ...(isForAll ? [] : [phrases.join(`; ${voice.text('or')} `)])].join(' · ');
}

// What a page says of itself for the jobs that are done by it: the same facts that a record of such a job bears. A page for
// rigs that are not told apart says the same, for whoever finds it wrong.

import { sha256 } from '../../text/sha256.js';
import { homeName, languageFolder, type Page } from './context.js';
import { serialsText } from './rig-facts.js';
import { describeRig } from './rig-words.js';
import type { CommonEntry, Version } from './site-map.js';

type Facts = Readonly<Record<`data-${string}`, string>>;

/** The facts of a procedure's page, as attributes of its body. */
export function jobFacts(page: Page, version: Version): Facts {
  const { home, voice, site } = page;
  const { procedure, hash } = version.variant;
  const serials = home && serialsText(version.rigs, home.machine, voice);
  return {
    'data-procedure': procedure.id,
    'data-title': voice.plain(procedure.title),
    'data-revision': String(procedure.revision),
    'data-content': hash,
    'data-code': version.code,
    'data-path': languageFolder(site, voice.language) + version.folder,
    'data-rig': sayRig(page, version),
    ...(serials !== undefined && { 'data-serials': serials }),
  };
}

/** The facts of a page of what holds for several rigs; `title` and `rig` as the page calls them. */
export function commonFacts(
  page: Page,
  entry: CommonEntry,
  said: { readonly title: string; readonly rig: string },
): Facts {
  const { voice, site } = page;
  const hashes = [...new Set(entry.places.map(({ version }) => version.variant.hash))].sort();
  return {
    'data-procedure': entry.procedure.id,
    'data-title': said.title,
    'data-revision': String(entry.procedure.revision),
    // that of the one version, or of all together
    'data-content': hashes.length === 1 ? (hashes[0] ?? '') : sha256(hashes.join('\n')),
    'data-code': entry.code,
    'data-path': languageFolder(site, voice.language) + entry.folder,
    'data-rig': said.rig,
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

// What changed between releases, and since the last one: the same comparison that `stepgauge compare` prints.

import type { ProcedureChange } from '../../model/comparison.js';
import type { ReleaseName, Stretch } from '../../model/history.js';
import { drawChanges } from '../changes/draw-changes.js';
import { sayRevision } from '../changes/say-change.js';
import { type Html, html } from '../html.js';
import { linkTo, type Page } from '../pages/context.js';
import { changeWord } from '../words/changes.js';
import { say, staffPage } from './staff-page.js';

/** The page; the latest stretch stands open, those before it are folded. */
export function releasesPage(page: Page, stretches: readonly Stretch[]): string {
  return staffPage(page, {
    title: say(page, 'releases'),
    sheet: 'changes',
    why: say(page, 'releases-why'),
    body: html`${stretches.map((stretch, i) => drawStretch(page, stretch, i === 0))}`,
  });
}

function drawStretch(page: Page, { from, to, comparison }: Stretch, isOpen: boolean): Html {
  const title = to
    ? say(page, 'releases-from-to', { from: nameOf(page, from), to: nameOf(page, to) })
    : say(page, 'releases-since', { from: nameOf(page, from) });
  const { shared, procedures, unchanged } = comparison;
  const word = (key: string, parts?: Readonly<Record<string, number>>): string =>
    changeWord(page.voice.language, key, parts);
  const isSame = shared.length === 0 && procedures.length === 0;
  const body = html`${isSame && html`<p>${word('nothing')}</p>`}${drawAlerts(page, procedures)}${
    shared.length > 0 &&
    html`<section class="procedure-changes"><h3>${word('shared')}</h3>
${drawChanges(shared, page.voice)}</section>
`
  }${procedures.map((procedure) => drawProcedure(page, procedure))}${
    !isSame &&
    unchanged > 0 &&
    html`<p class="aside">${unchanged === 1 ? word('unchanged-one') : word('unchanged-count', { count: unchanged })}</p>`
  }`;
  return isOpen
    ? html`<section class="stretch"><h2>${title}</h2>
${body}</section>
`
    : html`<details class="stretch"><summary><h2>${title}</h2></summary>
${body}</details>
`;
}

function nameOf({ voice }: Page, { name, date }: ReleaseName): string {
  return name === date ? voice.date(date) : `${name} (${voice.date(date)})`;
}

/** First of all: what changed while its revision stayed, for those cards look current. */
function drawAlerts(page: Page, procedures: readonly ProcedureChange[]): Html | undefined {
  const kept = procedures.filter(({ alert }) => alert === 'kept' || alert === 'lowered');
  if (kept.length === 0) return undefined;
  const rows = kept.map(
    ({ title, revision }) =>
      html`<li>${page.voice.say(title)}, ${page.voice.ui('revision', { revision: revision.after ?? '' })}</li>`,
  );
  return html`<div class="stop"><p><b>${say(page, 'releases-kept')}</b></p><ul>${rows}</ul></div>
`;
}

function drawProcedure(page: Page, procedure: ProcedureChange): Html {
  const { id, title, alert, changes } = procedure;
  const place = page.site.map.homes.find((home) => home.byId.has(id))?.byId.get(id);
  const name = page.voice.say(title);
  return html`<section class="procedure-changes"><h3>${place ? html`<a href="${linkTo(page, place.folder)}">${name}</a>` : name}</h3>
<p class="aside">${id}, ${sayRevision(procedure, page.voice)}</p>
${alert && html`<p class="alert-words"><b>${changeWord(page.voice.language, `alert-${alert}`)}</b></p>`}${drawChanges(changes, page.voice)}</section>
`;
}

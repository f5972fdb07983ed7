// Where the printed code of a card leads: the pages of that card as the book has it now, and whether the card still holds.

import type { CardChange } from '../../model/comparison.js';
import type { UnprintedCard } from '../../model/history.js';
import { drawRows } from '../changes/draw-changes.js';
import { sayWrittenRig } from '../changes/rig-names.js';
import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { homeName, linkTo, linkToShared, type Page, phoneLink } from './context.js';
import { renderPage } from './layout.js';
import type { Home } from './site-map.js';

/** The page of a card. Its address carries the printed revision behind `#`; the client script compares it with today's. */
export function cardPage(page: Page, code: string, since: readonly CardChange[] = []): string {
  const { voice, site } = page;
  const cards = site.cards.byCode.get(code) ?? [];
  const card = cards.find(({ language }) => language === voice.language) ?? cards[0];
  const places = (site.map.places.get(card?.variant ?? '') ?? []).filter(
    ({ home }) => home.machine.id === card?.machine,
  );
  const [first] = places;
  if (!card || !first) throw new Error(`There is no card ${code}`);
  const { procedure } = first.version.variant;
  const { id, title, revision } = procedure;
  return renderPage(page, {
    kind: 'card',
    title: `${voice.plain(title)} · ${voice.text('card-title')}`,
    head: html`<h1>${voice.say(title)}</h1><p class="summary">${voice.ui('card-is', { code: html`<b class="code">${spokenCode(code)}</b>` })}</p>`,
    facts: { 'data-procedure': id, 'data-revision': String(revision) },
    // what can kill is said on the page of the procedure, which comes next
    judged: { procedure, isDeadly: false },
    kept: first.home,
    ...(since.length > 0 && { sheet: 'changes' }),
    body: html`<p class="card-revision">${voice.ui('card-revision', { revision: html`<b>${revision}</b>` })}</p>
<p class="card-old" role="alert" hidden>${voice.ui('card-old', { phone: phoneLink(page) })}</p>
${since.map((change) => drawSince(page, change, { revision, homes: places.map(({ home }) => home) }))}<p class="card-unknown" hidden>${voice.ui('card-unknown')}</p>
<div class="card-now"><ul class="rows">
${places.map(
  ({ home, version }) => html`<li><a href="${linkTo(page, version.folder)}">${homeName(page, home)}</a></li>
`,
)}</ul></div>
<div class="card-any" hidden>${drawHomes(page, homesOf(page, card.machine, id), id)}</div>
<p><a href="${linkToShared(page, card.path)}">${voice.ui('card-print')}</a></p>`,
  });
}

/** The homes of a machine that have a procedure. */
function homesOf({ site }: Page, machine: string, procedure: string): readonly Home[] {
  return site.map.homes.filter((home) => home.machine.id === machine && home.byId.has(procedure));
}

function drawHomes(page: Page, homes: readonly Home[], procedure: string): Html {
  return html`<ul class="rows">
${homes.map(
  (home) => html`<li><a href="${linkTo(page, home.byId.get(procedure)?.folder ?? '')}">${homeName(page, home)}</a></li>
`,
)}</ul>`;
}

interface Now {
  readonly revision: number;
  /** Those that a card of the code is for now: a card that was printed earlier may be for others. */
  readonly homes: readonly Home[];
}

/**
 * What changed since the revision on a card, with the pages for its rigs: the client script shows the one of the card that
 * was scanned.
 */
function drawSince(page: Page, { revision, date, rigs, procedure, changes }: CardChange, now: Now): Html | undefined {
  const { voice } = page;
  const isSame = revision === now.revision;
  const homes = procedure
    ? homesOf(page, rigs[0]?.machine ?? '', procedure.id).filter(({ header }) =>
        rigs.some((rig) => rig.header === header.id),
      )
    : [];
  const isForSame =
    homes.length === now.homes.length && homes.every(({ folder }) => now.homes.some((home) => home.folder === folder));
  // a card of the revision that the book has is right, unless it was changed without a new one, or was for other rigs
  if (procedure && isSame && isForSame && changes.length === 0) return undefined;
  if (!procedure) {
    const words = voice.ui('card-gone-all', { phone: phoneLink(page) });
    return html`<section class="card-since" data-since="${revision}" hidden><p><b>${words}</b></p></section>
`;
  }
  const audience = { isOperator: true, sayRig: (label: string) => sayWrittenRig(page, label) };
  const words = isSame
    ? voice.ui(changes.length === 0 ? 'card-other-rigs' : 'card-same', { date: voice.date(date) })
    : voice.ui(changes.length === 0 ? 'card-since-none' : 'card-since', { revision });
  return html`<section class="card-since" data-since="${revision}" hidden><p><b>${words}</b></p>
${changes.length > 0 && drawRows(changes, voice, audience)}${(!isSame || !isForSame) && html`<p>${voice.ui('card-pages')}</p>${drawHomes(page, homes, procedure.id)}`}</section>
`;
}

/**
 * Where the code of a card leads that the book prints no more: whether the card still holds, and what there is for its
 * rigs. Without the script it is taken for one that does not.
 */
export function goneCardPage(page: Page, card: UnprintedCard, since: readonly CardChange[] = []): string {
  const { voice } = page;
  const { code, machine, procedure: id, title } = card;
  const places = homesOf(page, machine, id);
  const entry = places[0]?.byId.get(id);
  const key =
    entry === undefined
      ? 'card-gone-all'
      : entry.procedure.status === 'withdrawn'
        ? 'card-gone-withdrawn'
        : 'card-gone';
  const revision = key === 'card-gone' ? entry?.procedure.revision : undefined;
  const known = since.find((change) => change.revision === revision);
  const homes = places.filter(({ header }) => known?.rigs.some((rig) => rig.header === header.id));
  const name = entry?.procedure.title ?? title;
  const drawn = revision === undefined ? [] : since.map((change) => drawSince(page, change, { revision, homes }));
  const holds = known && known.changes.length === 0 && voice.ui('card-renumbered');
  return renderPage(page, {
    kind: 'card',
    title: `${voice.plain(name)} · ${voice.text('card-title')}`,
    head: html`<h1>${voice.say(name)}</h1><p class="summary">${voice.ui('card-is', { code: html`<b class="code">${spokenCode(code)}</b>` })}</p>`,
    facts: { 'data-procedure': id, 'data-revision': String(revision ?? 'none') },
    ...(drawn.length > 0 && { sheet: 'changes' }),
    body: html`<div class="stop card-old" role="alert"><p><b>${voice.ui(key, { phone: phoneLink(page) })}</b></p></div>
${drawn}${
  known &&
  html`<div class="card-now" hidden>${holds && html`<p>${holds}</p>`}${drawHomes(page, homes, id)}</div>
`
}<div class="card-any">${drawHomes(page, places, id)}</div>`,
  });
}

// Issued cards that are out of date, with why: what `stepgauge reprint` prints. Units stand by their id; their customers and
// the places that cards were given to only where the book lets customers be shown.

import type { IssueFinding, Reprint } from '../../model/reprint.js';
import { drawChanges } from '../changes/draw-changes.js';
import { groupByReason, type StateGroup } from '../changes/reprint-reasons.js';
import { type Html, html } from '../html.js';
import { linkTo, type Page } from '../pages/context.js';
import { spokenCode } from '../short-code.js';
import { changeWord } from '../words/changes.js';
import { say, staffPage } from './staff-page.js';

/** The page. */
export function issuedPage(page: Page, reprint: Reprint): string {
  const { cards, outOfDate } = reprint;
  const count = { count: outOfDate, all: cards.length };
  return staffPage(page, {
    title: say(page, 'issued'),
    sheet: 'changes',
    why: say(page, 'issued-why'),
    body: html`<p><b>${outOfDate === 0 ? say(page, 'issued-none', count) : say(page, 'issued-some', count)}</b></p>
${groupByReason(reprint).map((group) => drawGroup(page, group))}`,
  });
}

function drawGroup(page: Page, { state, count, reasons }: StateGroup): Html {
  const title = changeWord(page.voice.language, `issued-${state}`);
  if (state === 'right' || state === 'replaced') {
    return html`<p>${title}: ${count}</p>
`;
  }
  return html`<section><h2>${title}</h2>
${reasons.map(
  ({
    cards,
    reason,
  }) => html`<div class="procedure-changes">${reason.sentences.map(({ key, parts }) => html`<p>${changeWord(page.voice.language, key, parts)}</p>`)}
${drawChanges(reason.changes, page.voice)}<ul class="rows">${cards.map((card) => drawCard(page, card))}</ul></div>
`,
)}</section>
`;
}

function drawCard(page: Page, card: IssueFinding): Html {
  const { code, procedure, title, revision, revisionNow, language, rigs } = card;
  const { voice } = page;
  const entry = page.site.map.homes.find((home) => home.byId.has(procedure))?.byId.get(procedure);
  const name = title ? voice.say(title) : procedure;
  const numbers =
    revisionNow === undefined || revisionNow === revision
      ? voice.ui('revision', { revision })
      : html`${voice.ui('revision', { revision })}, ${say(page, 'issued-now', { revision: revisionNow })}`;
  return html`<li><span class="wide"><b class="code">${spokenCode(code)}</b> ${entry ? html`<a href="${linkTo(page, entry.folder)}">${name}</a>` : name}</span>
<span class="wide aside">${numbers}, ${language}; ${say(page, 'issued-on', { on: voice.date(card.on) })}${sayHolder(page, card)}; ${rigs.join(', ')}</span></li>
`;
}

/** For whom: the unit, and what may be said of it. */
function sayHolder(page: Page, { unit, place }: IssueFinding): string {
  const { settings, fleet } = page.site.book.book;
  const isShown = settings.showCustomers === true;
  const customer = fleet.find(({ id }) => id.value === unit)?.customer?.value;
  const said = [unit, isShown ? customer : undefined, isShown ? place : undefined].filter((part) => part !== undefined);
  return said.length === 0 ? '' : `, ${said.join(', ')}`;
}

// The way in: choose the machine, then the header on it. Not knowing which is an answer: how to tell stands below.

import { type Html, html } from '../html.js';
import { calculatorWords } from '../words/calculators.js';
import { machineFolder } from './addresses.js';
import { calculatorsLink } from './calculators-link.js';
import { linkTo, type Page, phoneLink, plainOf, sayText } from './context.js';
import { drawHeaderToTell } from './drawn-pictures.js';
import { jobsLink } from './jobs-page.js';
import { renderPage } from './layout.js';
import { drawKeptList } from './offline-pages.js';
import { drawTell } from './procedure-head.js';
import type { Group, Home } from './site-map.js';

/** The start of the site: which machine. */
export function startPage(page: Page): string {
  const { voice, site } = page;
  const { settings, machines } = site.book.book;
  const list = [...machines.values()].map((machine) => {
    const folder = machineFolder(machine.id, settings.languages);
    return { name: sayText(page, machine.name), href: linkTo(page, folder), tell: drawTell(page, machine.tell) };
  });
  return renderPage(page, {
    kind: 'start',
    title: voice.text('choose-machine'),
    head: html`<h1>${plainOf(page, settings.title)}</h1>`,
    body: html`<section id="resume" class="resume" data-words="${voice.text('go-on-with')}" data-forget="${voice.text('machines-forget', { name: '#' })}" hidden><h2>${voice.ui('machines-title')}</h2></section>
${drawKeptList(page)}<section><h2>${voice.ui('choose-machine')}</h2>
${drawChoices(
  page,
  list,
  site.map.groups.find(({ machine }) => machine === undefined),
)}</section>
${site.book.book.fleet.length > 0 && html`<p class="codes-link"><a href="${linkTo(page, 'units.html')}">${voice.ui('units')}</a></p>`}${drawTelling(page, voice.text('tell-machine'), list)}<p class="codes-link"><a href="${jobsLink(page)}">${voice.ui('jobs-title')}</a></p>
<p class="codes-link"><a href="${calculatorsLink(page)}">${calculatorWords(voice.language).title}</a></p>
<p class="codes-link"><a href="${linkTo(page, 'staff/')}">${voice.ui('staff')}</a></p>
<p class="codes-link"><a href="${linkTo(page, 'codes.html')}">${voice.ui('read-out-code')} ${voice.ui('all-codes')}</a></p>
`,
  });
}

/** The page of a machine: which header. */
export function machinePage(page: Page, homes: readonly Home[]): string {
  const { voice } = page;
  const [first] = homes;
  const group = page.site.map.groups.find(({ machine }) => machine !== undefined && machine === first?.machine);
  const name = first ? plainOf(page, first.machine.name) : '';
  const list = homes.map((home) => ({
    name: sayText(page, home.header.name),
    href: linkTo(page, home.folder),
    tell: tellHeader(page, home),
  }));
  return renderPage(page, {
    kind: 'machine',
    title: name,
    head: html`<h1>${name}</h1>`,
    body: html`<section><h2>${voice.ui('choose-header')}</h2>
${list.length === 0 ? html`<p>${voice.ui('no-headers')}</p>` : drawChoices(page, list, group)}</section>
${drawTelling(page, voice.text('tell-header'), list)}`,
  });
}

// the book's own picture comes first; without one, what its numbers draw
function tellHeader(page: Page, home: Home): Html | undefined {
  const { tell } = home.header;
  const told = drawTell(page, tell);
  const drawn = tell?.figure ? undefined : drawHeaderToTell(page, home);
  return told || drawn ? html`${told}${drawn}` : undefined;
}

interface Choice {
  readonly name: Html;
  readonly href: string;
  readonly tell: Html | undefined;
}

function drawChoices(page: Page, list: readonly Choice[], unknown: Group | undefined): Html {
  const rest =
    unknown &&
    html`<li class="unknown"><a href="${linkTo(page, unknown.folder)}">${page.voice.ui('do-not-know')}</a></li>`;
  return html`<ul class="choices" data-needs-signal="${page.voice.text('needs-signal')}">${list.map(({ name, href }) => html`<li><a href="${href}">${name}</a></li>`)}${rest}</ul>
`;
}

function drawTelling(page: Page, title: string, list: readonly Choice[]): Html | undefined {
  const told = list.filter(({ tell }) => tell !== undefined);
  const { voice } = page;
  if (told.length === 0) return undefined;
  const rows = told.map(({ name, href, tell }) => html`<li><h3><a href="${href}">${name}</a></h3>${tell}</li>`);
  return html`<section class="telling"><h2>${voice.ui('tell-title')}</h2>
<details><summary>${title}</summary><ul class="tells">${rows}</ul></details>
<p>${voice.ui('tell-still', { phone: phoneLink(page) })}</p></section>
`;
}

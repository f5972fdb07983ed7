// The way in: choose the machine, then the header on it. Not knowing which is an answer: how to tell stands below.

import { type Html, html } from '../html.js';
import { linkTo, type Page, phoneLink, plainOf, sayText } from './context.js';
import { jobsLink } from './jobs-page.js';
import { renderPage } from './layout.js';
import { drawKeptList } from './offline-pages.js';
import { drawTell } from './procedure-head.js';
import { type Home, machineFolder } from './site-map.js';

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
    body: html`<div id="resume" class="resume" data-words="${voice.text('go-on-with')}" hidden></div>
${drawKeptList(page)}<section><h2>${voice.ui('choose-machine')}</h2>
${drawChoices(list)}</section>
${drawTelling(page, voice.text('tell-machine'), list)}<p class="codes-link"><a href="${jobsLink(page)}">${voice.ui('jobs-title')}</a></p>
<p class="codes-link"><a href="${linkTo(page, 'codes.html')}">${voice.ui('read-out-code')} ${voice.ui('all-codes')}</a></p>
`,
  });
}

/** The page of a machine: which header. */
export function machinePage(page: Page, homes: readonly Home[]): string {
  const { voice } = page;
  const [first] = homes;
  const name = first ? plainOf(page, first.machine.name) : '';
  const list = homes.map((home) => ({
    name: sayText(page, home.header.name),
    href: linkTo(page, home.folder),
    tell: drawTell(page, home.header.tell),
  }));
  return renderPage(page, {
    kind: 'machine',
    title: name,
    head: html`<h1>${name}</h1>`,
    body: html`<section><h2>${voice.ui('choose-header')}</h2>
${list.length === 0 ? html`<p>${voice.ui('no-headers')}</p>` : drawChoices(list)}</section>
${drawTelling(page, voice.text('tell-header'), list)}`,
  });
}

interface Choice {
  readonly name: Html;
  readonly href: string;
  readonly tell: Html | undefined;
}

function drawChoices(list: readonly Choice[]): Html {
  return html`<ul class="choices">${list.map(({ name, href }) => html`<li><a href="${href}">${name}</a></li>`)}</ul>
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

// A procedure that differs within the rigs of one home: which version is yours, and how to tell.

import { html } from '../html.js';
import { linkTo, type Page, phoneLink } from './context.js';
import { renderPage } from './layout.js';
import { drawTell, drawTells } from './procedure-head.js';
import { factsText } from './rig-facts.js';
import { describeRig } from './rig-words.js';
import type { Entry, Home } from './site-map.js';

/** The file of the page to choose from. */
export function chooserPage(page: Page, home: Home, entry: Entry): string {
  const { voice } = page;
  const title = voice.plain(entry.procedure.title);
  const rows = entry.versions.map(({ folder, rigs }) => {
    const phrase = rigs.map((rig) => describeRig(rig, home.machine, voice)).join(`; ${voice.text('or')} `);
    return html`<li data-rigs="${factsText(rigs)}"><a href="${linkTo(page, folder)}">${phrase.charAt(0).toUpperCase() + phrase.slice(1)}</a></li>`;
  });
  const bySerial = entry.versions.some(({ rigs }) => rigs.some(({ serials }) => serials !== undefined));
  return renderPage(page, {
    kind: 'chooser',
    title,
    head: html`<h1>${voice.say(entry.procedure.title)}</h1><p class="summary">${voice.say(entry.procedure.summary)}</p>`,
    body: html`<section><h2>${voice.ui('choose-version')}</h2>
<p>${voice.ui('choose-version-why')}</p>
<ul class="choices" id="versions">${rows}${entry.common && html`<li class="unknown"><a href="${linkTo(page, entry.common.folder)}">${voice.ui('do-not-know')}</a></li>`}</ul>
${drawTells(page, home, entry.versions)}${bySerial && drawTell(page, home.machine.tell)}
<p>${voice.ui('choose-version-unsure', { phone: phoneLink(page) })}</p></section>
`,
  });
}

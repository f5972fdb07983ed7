// Practice without a machine, and for a clinic a handout of each rig to print, with a sheet to sign.

import { type Html, html } from '../html.js';
import { linkTo, type Page, phoneLink, plainOf } from '../pages/context.js';
import { drawHazard, findHazard, worstFirst } from '../pages/hazards.js';
import { drawCode } from '../pages/scan-code.js';
import type { Entry, Home } from '../pages/site-map.js';
import { spokenCode } from '../short-code.js';
import { rigName, say, staffFolder, staffPage } from './staff-page.js';

/** What an address ends in where a procedure is practised. */
const practice = '?practice';

/** Rows of the sheet to sign. */
const signRows = 16;

/** Every rig with its handout and its procedures to practise. */
export function clinicStart(page: Page): string {
  const rigs = page.site.map.homes.map(
    (home) => html`<section class="job"><h2>${rigName(page, home)}</h2>
<ul class="choices"><li><a href="${linkTo(page, `${staffFolder}clinic/${home.folder}`)}">${say(page, 'clinic-handout')}</a></li></ul>
<details><summary>${say(page, 'clinic-practise')}</summary><ul class="entries">${practised(home).map(
      (entry) =>
        html`<li><a href="${linkTo(page, entry.folder)}${practice}"><b>${page.voice.say(entry.procedure.title)}</b></a></li>`,
    )}</ul></details></section>
`,
  );
  return staffPage(page, { title: say(page, 'clinic'), why: say(page, 'clinic-why'), body: html`${rigs}` });
}

function practised({ entries }: Home): readonly Entry[] {
  return entries.filter(({ procedure }) => procedure.status === 'released');
}

/** The handout of a rig: cautions, what is practised with a code to scan, and the sheet to sign. */
export function handoutPage(bare: Page, home: Home): string {
  const page: Page = { ...bare, home };
  const { voice, site } = page;
  const entries = practised(home);
  const hazards = [...new Set(entries.flatMap(({ procedure }) => procedure.hazards))].map((id) => findHazard(page, id));
  return staffPage(bare, {
    title: `${say(page, 'handout-title')} · ${rigName(page, home)}`,
    why: say(page, 'handout-how'),
    body: html`<section class="cautions"><h2>${voice.ui('cautions')}</h2>${worstFirst(hazards).map((hazard) => drawHazard(hazard, voice))}</section>
<ul class="handout">${entries.map((entry) => drawPractised(page, entry))}</ul>
<p>${plainOf(page, site.book.book.settings.owner)}: ${phoneLink(page)}</p>
${drawSheet(page)}`,
  });
}

function drawPractised(page: Page, entry: Entry): Html {
  const { voice, site } = page;
  const { procedure, versions } = entry;
  const url = `${site.book.book.settings.url.value.replace(/\/?$/, '/')}${entry.folder}${practice}`;
  const title = voice.plain(procedure.title);
  const [only] = versions;
  const code = versions.length > 1 ? entry.code : only.code;
  return html`<li>${drawCode(url, say(page, 'handout-code', { title }))}<div><h2>${voice.say(procedure.title)}</h2><p>${voice.say(procedure.summary)}</p>
<p class="aside">${voice.ui('revision', { revision: procedure.revision })} · <b class="code">${spokenCode(code)}</b></p></div></li>
`;
}

function drawSheet(page: Page): Html {
  const blank = (label: string): Html => html`<p class="blank"><span>${label}</span></p>`;
  const head = (['handout-name', 'handout-farm', 'handout-signature'] as const).map(
    (key) => html`<th scope="col">${say(page, key)}</th>`,
  );
  const rows = Array.from(
    { length: signRows },
    (_, i) => html`<tr><th scope="row">${i + 1}</th><td></td><td></td><td></td></tr>`,
  );
  return html`<section class="sheet"><h2>${say(page, 'handout-sign')}</h2>
${(['handout-on', 'handout-at', 'handout-held'] as const).map((key) => blank(say(page, key)))}
<div class="scroll" tabindex="0" role="group" aria-label="${say(page, 'handout-sign')}"><table><thead><tr><th scope="col">${page.voice.text('row')}</th>${head}</tr></thead><tbody>${rows}</tbody></table></div></section>
`;
}

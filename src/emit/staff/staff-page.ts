// The frame of a page for desk and staff, and what all of them share.

import { type Html, html } from '../html.js';
import { homeName, linkTo, type Page } from '../pages/context.js';
import { renderPage } from '../pages/layout.js';
import type { Home } from '../pages/site-map.js';
import { type StaffKey, staffWord } from '../words/staff.js';

/** Where they stand. */
export const staffFolder = 'staff/';

/** A word in the page's language. */
export function say(page: Page, key: StaffKey, parts?: Readonly<Record<string, string | number>>): string {
  return staffWord(page.voice.language, key, parts);
}

/** A page with its title, one sentence of what it is, and a way back to the list of them. */
export function staffPage(
  page: Page,
  {
    title,
    why,
    body,
    sheet,
  }: { readonly title: string; readonly why?: string; readonly body: Html; readonly sheet?: string },
): string {
  return renderPage(page, {
    kind: 'staff',
    title,
    rig: { words: say(page, 'staff'), folder: staffFolder },
    head: html`<h1>${title}</h1>${why !== undefined && html`<p class="summary">${why}</p>`}`,
    body,
    ...(sheet !== undefined && { sheet }),
  });
}

/** A list of rigs, each leading below `folder`. */
export function drawRigs(page: Page, folder: string): Html {
  const rows = page.site.map.homes.map(
    (home) => html`<li><a href="${linkTo(page, folder + home.folder)}">${rigName(page, home)}</a></li>`,
  );
  return html`<section><h2>${say(page, 'choose-rig')}</h2>
<ul class="choices">${rows}</ul></section>`;
}

/** `Tarn 40 · 12-row header`, also where the page is of no home. */
export function rigName(page: Page, home: Home): string {
  return homeName({ ...page, home }, home);
}

/** A wide table in a box that scrolls; the first cell of a row names it. */
export function drawTable(name: string, head: readonly string[], rows: readonly (readonly Html[])[]): Html {
  return html`<div class="scroll" tabindex="0" role="group" aria-label="${name}"><table>
<thead><tr>${head.map((cell) => html`<th scope="col">${cell}</th>`)}</tr></thead>
<tbody>${rows.map(
    ([first, ...cells]) => html`<tr><th scope="row">${first}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>
`,
  )}</tbody></table></div>
`;
}

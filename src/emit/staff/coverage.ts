// Rigs against procedures: which of them are covered, and how far each was tried on that machine.

import type { Procedure } from '../../model/procedure.js';
import { type Html, html } from '../html.js';
import { linkTo, type Page } from '../pages/context.js';
import type { Entry, Home } from '../pages/site-map.js';
import { drawTable, rigName, say, staffPage } from './staff-page.js';

/** The page. */
export function coveragePage(page: Page): string {
  const { homes } = page.site.map;
  const ids = [...new Set(homes.flatMap(({ entries }) => entries.map(({ id }) => id)))].sort();
  const rows = ids.map((id) => {
    const cells = homes.map((home) => drawCell(page, home, home.byId.get(id)));
    const procedure = homes.find((home) => home.byId.has(id))?.byId.get(id)?.procedure;
    return [page.voice.say(procedure?.title), ...cells];
  });
  const head = [say(page, 'procedure'), ...homes.map((home) => rigName(page, home))];
  return staffPage(page, {
    title: say(page, 'coverage'),
    why: say(page, 'coverage-why'),
    body: drawTable(say(page, 'coverage'), head, rows),
  });
}

function drawCell(page: Page, home: Home, entry: Entry | undefined): Html {
  if (!entry) return html`<span class="aside">${say(page, 'coverage-none')}</span>`;
  const { status, source } = entry.procedure;
  const mark = status === 'released' ? '●' : page.voice.text(status);
  return html`<a href="${linkTo(page, entry.folder)}">${mark} ${say(page, triedOn(source, home.machine.id))}</a>`;
}

/** How far a procedure was tried on a machine. */
export function triedOn({ verified }: Procedure, machine: string): 'tried-machine' | 'tried-desk' | 'tried-none' {
  const ways = verified.filter((one) => one.machine.value === machine).map(({ how }) => how.value);
  if (ways.some((how) => how !== 'desk')) return 'tried-machine';
  return ways.length > 0 ? 'tried-desk' : 'tried-none';
}

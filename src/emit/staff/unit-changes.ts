// What has to be done again on one unit after a change: by header and event, at the version that is right for the unit.

import { wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import { linkTo, type Page, plainOf, readerOf } from '../pages/context.js';
import { rigFacts, sayKnown } from '../pages/rig-facts.js';
import type { Entry, Home } from '../pages/site-map.js';
import { type UnitPlace, unitName } from '../pages/unit-pages.js';
import { fittingVersions } from '../rig-match.js';
import { say, staffFolder, staffPage } from './staff-page.js';

/** The folder of a unit's page. */
export function unitChangesFolder({ folder }: UnitPlace): string {
  return `${staffFolder}changes/${folder.slice(folder.indexOf('/') + 1)}`;
}

/** The list of units. */
export function changesStart(page: Page, units: readonly UnitPlace[]): string {
  const rows = units.map(
    (unit) =>
      html`<li><a href="${linkTo(page, unitChangesFolder(unit))}"><b>${unitName(page, unit)}</b><span class="aside">${plainOf(page, unit.machine.name)}</span></a></li>`,
  );
  return staffPage(page, {
    title: say(page, 'changes'),
    why: say(page, 'changes-why'),
    body: html`<ul class="entries">${rows}</ul>`,
  });
}

/** One unit. */
export function unitChangesPage(page: Page, unit: UnitPlace): string {
  const { voice } = page;
  return staffPage(page, {
    title: `${say(page, 'changes')} · ${unitName(page, unit)}`,
    why: [plainOf(page, unit.machine.name), sayKnown(unit.known, unit.machine, voice)]
      .filter((part) => part !== '')
      .join(' · '),
    body: html`${unit.homes.map((home) => drawHome({ ...page, home }, home, unit))}`,
  });
}

function drawHome(page: Page, home: Home, unit: UnitPlace): Html {
  const { voice, site } = page;
  const events = [...site.book.book.events.values()].flatMap((event) => {
    const rows = home.entries
      .filter(({ procedure }) => procedure.status !== 'withdrawn' && procedure.voidedBy.includes(event.id))
      .flatMap((entry) => drawEntry(page, entry, unit) ?? []);
    if (rows.length === 0) return [];
    return [
      html`<h3>${voice.say(wordsOf(event.label, readerOf(page)))}</h3><ul class="rows">${rows}</ul>
`,
    ];
  });
  return html`<section><h2>${plainOf(page, home.header.name)}</h2>
${events.length === 0 ? html`<p>${voice.ui('change-none')}</p>` : events}</section>
`;
}

/** Nothing for a procedure that is not for this unit. */
function drawEntry(page: Page, { versions, folder, procedure }: Entry, unit: UnitPlace): Html | undefined {
  const fitting = fittingVersions(
    versions.map(({ rigs }) => rigs.map(rigFacts)),
    unit.known,
  );
  if (fitting.length === 0) return undefined;
  const only = fitting.length === 1 ? versions[fitting[0] ?? 0] : undefined;
  const choose = only === undefined && html` <span class="aside">${say(page, 'changes-version')}</span>`;
  return html`<li><span class="wide"><a href="${linkTo(page, only?.folder ?? folder)}">${page.voice.say(procedure.title)}</a>${choose}</span></li>`;
}

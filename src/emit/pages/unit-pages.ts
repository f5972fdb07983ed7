// Customers' units: the list of them, and a page for each, with a code to scan. Customers themselves are named only where
// book.yaml says so.

import type { FleetUnit, Machine } from '../../model/book.js';
import { type Html, html } from '../html.js';
import type { KnownMachine } from '../rig-match.js';
import { linkTo, type Page, phoneLink, plainOf } from './context.js';
import { renderPage } from './layout.js';
import { knownOfUnit, sayKnown } from './rig-facts.js';
import { unbroken } from './rig-words.js';
import { drawCode } from './scan-code.js';
import type { Home } from './site-map.js';

/** A unit of the fleet whose machine the book has, and where it leads. */
export interface UnitPlace {
  readonly unit: FleetUnit;
  readonly machine: Machine;
  readonly known: KnownMachine;
  /** `u/unit-17/`. */
  readonly folder: string;
  /** Those of its own headers; of all that fit where the fleet names none. */
  readonly homes: readonly Home[];
}

/** The units of a book in its order, each at a folder of its own. */
export function placeUnits(page: Pick<Page, 'site'>): readonly UnitPlace[] {
  const { book, map } = { book: page.site.book.book, map: page.site.map };
  const taken = new Set<string>();
  return book.fleet.flatMap((unit): readonly UnitPlace[] => {
    const machine = book.machines.get(unit.machine.value);
    if (!machine) return [];
    let name = unit.id.value.toLowerCase().replaceAll(/[^\p{L}\p{N}_-]+/gu, '-');
    while (taken.has(name)) name = `${name}_`;
    taken.add(name);
    const all = map.homes.filter((home) => home.machine.id === machine.id);
    const own = unit.headers.flatMap(({ header }) => all.filter((home) => home.header.id === header.value));
    const homes = unit.headers.length === 0 ? all : [...new Set(own)];
    return [{ unit, machine, known: knownOfUnit(unit, machine), folder: `u/${name}/`, homes }];
  });
}

/** What a unit is called: its id, and its customer where that may be shown. */
export function unitName(page: Page, { unit }: UnitPlace): string {
  const customer = page.site.book.book.settings.showCustomers === true && unit.customer?.value;
  return customer ? `${unit.id.value} · ${customer}` : unit.id.value;
}

/** The list of all units; the client script finds one as its id or serial is typed. */
export function unitsPage(page: Page, units: readonly UnitPlace[]): string {
  const { voice } = page;
  return renderPage(page, {
    kind: 'list',
    title: voice.text('units-title'),
    head: html`<h1>${voice.ui('units-title')}</h1><p class="summary">${voice.ui('units-why')}</p>`,
    body: html`<form class="search" id="find-unit" hidden data-unknown="${voice.text('units-none')}">
<label for="unit">${voice.ui('units-field')}</label>
<input id="unit" name="unit" type="text" autocomplete="off" autocapitalize="none" spellcheck="false">
<p class="status" role="status"></p>
</form>
<ul class="entries" id="units">
${units.map(
  (
    place,
  ) => html`<li data-find="${[place.unit.id.value, place.unit.serial?.value ?? ''].join(' ')}"><a href="${linkTo(page, place.folder)}"><b>${unitName(page, place)}</b><span class="aside">${plainOf(page, place.machine.name)}${place.unit.serial && html` · ${unbroken(place.unit.serial.value)}`}</span></a></li>
`,
)}</ul>`,
  });
}

/** One unit: which header is on it, and the sticker that leads here. */
export function unitPage(page: Page, place: UnitPlace): string {
  const { voice } = page;
  const { unit, machine, known, homes } = place;
  const said = sayKnown(known, machine, voice);
  const kept = {
    unit: unit.id.value,
    name: [unitName(page, place), plainOf(page, machine.name)].join(' · '),
    known,
    homes: homes.map((home) => ({ folder: home.folder, name: plainOf(page, home.header.name) })),
  };
  return renderPage(page, {
    kind: 'unit',
    title: unitName(page, place),
    facts: { 'data-unit': JSON.stringify(kept) },
    head: html`<h1>${unitName(page, place)}</h1><p class="summary">${plainOf(page, machine.name)}${said !== '' && ` · ${said}`}</p>
<p class="meta" id="unit-kept" hidden>${voice.ui('unit-kept')}</p>`,
    body: html`<section><h2>${voice.ui('unit-header')}</h2>
${homes.length === 0 ? html`<p>${voice.ui('unit-headers-none')} ${phoneLink(page)}</p>` : drawHeaders(page, place)}</section>
${drawSticker(page, place)}`,
  });
}

function drawHeaders(page: Page, { unit, homes }: UnitPlace): Html {
  const serialOf = (home: Home): string | undefined =>
    unit.headers.find(({ header }) => header.value === home.header.id)?.serial?.value;
  return html`<ul class="choices">${homes.map((home) => {
    const serial = serialOf(home);
    return html`<li><a href="${unitHome(page, unit, home)}">${plainOf(page, home.header.name)}${serial !== undefined && ` · ${unbroken(serial)}`}</a></li>`;
  })}</ul>
`;
}

/** A home as the unit opens it: the client script takes the unit from the address. */
export function unitHome(page: Page, unit: FleetUnit, home: Home): string {
  return `${linkTo(page, home.folder)}?unit=${encodeURIComponent(unit.id.value)}`;
}

/** The code to scan, with what stands below it on a sticker. */
export function drawSticker(page: Page, place: UnitPlace): Html {
  const { voice, site } = page;
  const url = addressOf(site.book.book.settings.url.value, place.folder);
  return html`<section class="sticker"><h2>${voice.ui('unit-sticker')}</h2>
${drawCode(url, voice.text('unit-sticker-alt', { url }))}
<p><b>${place.unit.id.value}</b>${place.unit.serial && html` · ${unbroken(place.unit.serial.value)}`} · ${plainOf(page, place.machine.name)}</p>
<p class="aside">${voice.ui('unit-sticker-why')} ${url}</p></section>
`;
}

function addressOf(base: string, folder: string): string {
  return `${base.replace(/\/?$/, '/')}${folder}`;
}

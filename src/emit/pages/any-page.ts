// The home of whoever does not know the header, or the machine: procedures of which something holds for all that it may be.

import { compareText } from '../../diagnostic/diagnostic.js';
import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { machineFolder } from './addresses.js';
import { type CommonPlace, commonTitle } from './common-page.js';
import { homeName, linkTo, type Page, plainOf } from './context.js';
import { renderPage } from './layout.js';
import { about, drawTaken } from './listed.js';
import { drawKeep } from './offline-pages.js';
import { type CommonEntry, type Entry, type Group, jobFolder, type Place } from './site-map.js';

/** The file of the home. */
export function anyPage(page: Page, group: Group): string {
  const { voice } = page;
  const name = groupName(page, group);
  return renderPage(page, {
    kind: 'home',
    title: name,
    head: html`<h1>${name}</h1><p class="summary">${voice.ui('any-why', { rigs: rigsOf(page, group) })} <a href="${linkTo(page, tellOf(page, group))}">${voice.ui('common-tell')}</a></p>
<p class="meta"><span>${voice.ui('read-out', { code: html`<b class="code">${spokenCode(group.code)}</b>` })}</span></p>`,
    kept: group,
    facts: { 'data-name': name },
    body: html`${drawKeep(page, group)}${drawJobs(page, group)}${drawOthers(page, group)}`,
  });
}

/** `Any machine`, `Tarn 40 · any header`. */
export function groupName(page: Page, { machine }: Group): string {
  const { voice } = page;
  return machine ? voice.text('any-header', { machine: plainOf(page, machine.name) }) : voice.text('any-machine');
}

function rigsOf(page: Page, { homes, machine }: Group): string {
  const names = machine
    ? homes.map(({ header }) => plainOf(page, header.name))
    : homes.map((home) => plainOf(page, home.machine.name));
  return [...new Set(names)].join('; ');
}

/** The page that tells how to find out: of the machine, or the start. */
function tellOf(page: Page, { machine }: Group): string {
  return machine ? machineFolder(machine.id, page.site.book.book.settings.languages) : '';
}

function drawJobs(page: Page, group: Group): readonly Html[] {
  const known = page.site.book.book.settings.jobs.map(({ id, label }) => ({
    id: id.value,
    label: plainOf(page, label),
  }));
  const folders = [...new Set(group.entries.map(({ procedure }) => folderOf(procedure)))];
  const rest = folders.filter((folder) => !known.some(({ id }) => id === folder)).sort(compareText);
  const jobs = [
    ...known,
    ...rest.map((id) => ({ id, label: id === '' ? page.voice.text('other-work') : id.replaceAll('-', ' ') })),
  ];
  return jobs.flatMap(({ id, label }) => {
    const entries = group.entries.filter(({ procedure }) => folderOf(procedure) === id);
    if (entries.length === 0) return [];
    return [
      html`<section class="job"><h2>${label}</h2>
<ul class="entries">${entries.map((entry) => drawEntry(page, group, entry))}</ul></section>
`,
    ];
  });
}

function drawEntry(page: Page, group: Group, entry: CommonEntry): Html {
  const { voice } = page;
  const { folder, procedure, partial, places } = entry;
  const only =
    partial && html`<span class="aside">${voice.ui('any-only', { rigs: namesOf(page, group, places) })}</span>`;
  return html`<li${about(procedure)}><a href="${linkTo(page, folder)}"><b>${commonTitle(entry, voice)}</b>${drawTaken(procedure, voice) ?? only}</a></li>`;
}

function folderOf(procedure: CommonEntry['procedure']): string {
  return jobFolder({ procedure });
}

function drawOthers(page: Page, group: Group): Html | undefined {
  const { voice } = page;
  if (group.singles.length === 0) return undefined;
  const rows = group.singles.map((place) => {
    const { procedure } = place.version.variant;
    const folder = place.home.byId.get(procedure.id)?.folder ?? place.version.folder;
    const only = html`<span class="aside">${voice.ui('any-only', { rigs: namesOf(page, group, [place]) })}</span>`;
    return html`<li${about(procedure)}><a href="${linkTo(page, folder)}"><b>${voice.say(procedure.title)}</b>${only}${drawTaken(procedure, voice)}</a></li>`;
  });
  return html`<section class="job"><h2>${voice.ui('any-others')}</h2><p class="aside">${voice.ui('any-others-why')}</p>
<ul class="entries">${rows}</ul></section>
`;
}

/** The headers of these places, or the machines with their headers. */
function namesOf(page: Page, { machine }: Pick<Group, 'machine'>, places: readonly Place[]): string {
  const names = places.map(({ home }) => (machine ? plainOf(page, home.header.name) : homeName(page, home)));
  return [...new Set(names)].join('; ');
}

/** Where the pages of a group stand. */
export function placeOfGroup(page: Page, group: Group, entry: CommonEntry): CommonPlace {
  const entries = group.entries.map(({ id, procedure, folder, places }): Entry => {
    const [first, ...rest] = places.map(({ version }) => version);
    if (!first) throw new Error(`The procedure ${id} stands nowhere`);
    return { id, procedure, folder, versions: [first, ...rest], code: '' };
  });
  const byState = new Map<string, Entry[]>();
  for (const entry of entries) {
    const state = entry.procedure.gives;
    if (state !== undefined) byState.set(state, [...(byState.get(state) ?? []), entry]);
  }
  return {
    rigs: entry.partial ? namesOf(page, group, entry.places) : rigsOf(page, group),
    back: { words: groupName(page, group), folder: group.folder },
    tell: tellOf(page, group),
    linked: {
      folder: group.folder,
      entries,
      byId: new Map(entries.map((entry) => [entry.id, entry])),
      givers: byState,
    },
  };
}

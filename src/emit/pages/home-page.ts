// The home of a machine with its header: search, symptoms, and the work by job, each entry with what it needs first.

import { type Html, html } from '../html.js';
import { calculatorWords } from '../words/calculators.js';
import { calculatorsLink } from './calculators-link.js';
import { homeName, linkTo, type Page, plainOf, sayText } from './context.js';
import { drawOwnHeader } from './drawn-pictures.js';
import { jobsLink } from './jobs-page.js';
import { renderPage } from './layout.js';
import { about, drawTaken } from './listed.js';
import { drawKeep } from './offline-pages.js';
import { narrowedFacts } from './rig-facts.js';
import { drawRigDoor } from './rig-page.js';
import { type Entry, type Home, jobFolder } from './site-map.js';
import { plainCondition } from './states.js';

/** How many needs stand beside an entry; the rest is counted. */
const needsShown = 3;

/** The file of a home. */
export function homePage(page: Page, home: Home): string {
  const { voice } = page;
  const name = homeName(page, home);
  return renderPage(page, {
    kind: 'home',
    isHome: true,
    title: name,
    head: html`<h1>${plainOf(page, home.machine.name)}</h1><p class="summary">${sayText(page, home.header.name)} · <a href="${linkTo(page, '')}">${voice.ui('another-machine')}</a></p>`,
    body: html`${drawRigDoor(page, home, linkTo(page, `${home.folder}rig.html`))}${drawSearch(page)}
<div id="listing">
<ul class="entries doors">
${door(linkTo(page, `${home.folder}symptoms.html`), voice.ui('symptoms'), voice.ui('symptoms-hint'))}
${door(linkTo(page, `${home.folder}changes.html`), voice.ui('changes'), voice.ui('changes-hint'))}
${door(linkTo(page, `${home.folder}values.html`), voice.ui('all-values'), voice.ui('all-values-hint'))}
${door(calculatorsLink(page), html`${calculatorWords(voice.language).title}`, html`${calculatorWords(voice.language).hint}`)}
${door(jobsLink(page), voice.ui('jobs-title'), voice.ui('jobs-hint'))}
</ul>
${drawKeep(page, home)}<p class="aside" id="not-for" data-words="${voice.text('rig-not-for', { titles: '#' })}" hidden></p>
${home.entries.length === 0 ? html`<p>${voice.ui('nothing-yet')}</p>` : drawJobs(page, home)}
${drawOwnHeader(page, home)}</div>
`,
  });
}

// without the client script the box would do nothing: it is shown by the script
function drawSearch(page: Page): Html {
  const { voice } = page;
  const words = {
    none: voice.text('search-none'),
    count: voice.text('search-count', { count: '#' }),
    broken: voice.text('search-broken'),
    wait: voice.text('search-wait'),
  };
  return html`<form class="search" id="search" role="search" hidden data-index="search.json" data-details="search-details.json" data-none="${words.none}" data-count="${words.count}" data-broken="${words.broken}" data-wait="${words.wait}">
<label for="query">${voice.ui('search-hint')}</label>
<input id="query" name="query" type="search" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="search" aria-controls="results">
<p class="status" id="search-status" role="status"></p>
</form>
<div id="results"></div>`;
}

function drawJobs(page: Page, home: Home): readonly Html[] {
  const jobs = page.site.book.book.settings.jobs;
  const known = jobs.map(({ id, label }) => ({ id: id.value, label: plainOf(page, label) }));
  const others = [...new Set(home.entries.map(jobFolder))].filter((folder) => !known.some(({ id }) => id === folder));
  const rest = others.map((id) => ({ id, label: id === '' ? page.voice.text('other-work') : id.replaceAll('-', ' ') }));
  const counts = countNeeds(page, home);
  return [...known, ...rest].flatMap(({ id, label }) => {
    const entries = home.entries.filter((entry) => jobFolder(entry) === id);
    if (entries.length === 0) return [];
    return [
      html`<section class="job"><h2>${label}</h2>
<ul class="entries">
${entries.map((entry) => drawEntry(page, entry, counts))}</ul></section>
`,
    ];
  });
}

function drawEntry(page: Page, entry: Entry, counts: NeedCounts): Html {
  const { voice } = page;
  const { procedure } = entry;
  const needs = procedure.status === 'draft' ? voice.ui('draft') : html`${sayNeeds(page, entry, counts)}`;
  const rigs = narrowedFacts(entry.versions.flatMap((version) => version.rigs));
  const facts = html`${about(procedure)}${rigs !== undefined && html` data-rigs="${rigs}"`}`;
  const aside = drawTaken(procedure, voice) ?? html`<span class="aside">${needs}</span>`;
  return html`<li${facts}><a href="${linkTo(page, entry.folder)}"><b>${voice.say(procedure.title)}</b>${aside}</a></li>
`;
}

function door(href: string, title: Html, aside: Html): Html {
  return html`<li><a href="${href}"><b>${title}</b><span class="aside">${aside}</span></a></li>
`;
}

/** What an entry needs first, in words: the conditions that set it apart, and how many more there are. */
function sayNeeds(page: Page, entry: Entry, counts: NeedCounts): string {
  const { voice } = page;
  // what few entries ask for tells more than what all do
  const needs = [...sharedNeeds(page, entry)].sort((a, b) => (counts.get(a) ?? 0) - (counts.get(b) ?? 0));
  if (needs.length === 0) return voice.text('needs-none');
  const shown = needs.slice(0, needsShown);
  const more = needs.length > needsShown ? [voice.text('more', { count: needs.length - needsShown })] : [];
  return voice.text('first-needs', { needs: [...shown, ...more].join(' · ') });
}

/** How many entries of a home ask for a condition, by its words. Versions of one procedure count by what they share. */
type NeedCounts = ReadonlyMap<string, number>;

function countNeeds(page: Page, home: Home): NeedCounts {
  const counts = new Map<string, number>();
  for (const entry of home.entries) {
    for (const need of sharedNeeds(page, entry)) counts.set(need, (counts.get(need) ?? 0) + 1);
  }
  return counts;
}

function sharedNeeds({ voice, site }: Page, { versions }: Entry): readonly string[] {
  const [first = [], ...others] = versions.map(({ variant }) =>
    variant.procedure.requires.map(({ condition }) => plainCondition(condition, site.book.world, voice)),
  );
  return first.filter((need) => others.every((needs) => needs.includes(need)));
}

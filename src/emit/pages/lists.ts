// Lists over a whole home: from a symptom to the procedure, what to do again after a change, all check values.

import type { ResolvedProcedure, Rig } from '../../model/resolved.js';
import type { Words } from '../../model/text.js';
import { wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import { sayDue } from './after.js';
import { linkTo, type Page, phoneLink, readerOf } from './context.js';
import { drawOwnHeader } from './drawn-pictures.js';
import { renderPage } from './layout.js';
import { about, drawTaken } from './listed.js';
import { factsText, narrowedFacts } from './rig-facts.js';
import type { Entry, Home } from './site-map.js';
import { sayCondition } from './states.js';
import { type Symptom, symptomFolder, symptomsOf } from './symptoms.js';

/** From what is seen to where to look first. */
export function symptomsPage(page: Page, home: Home): string {
  const { voice } = page;
  const symptoms = symptomsOf(home);
  const groups = [
    { key: 'symptom-work', kind: 'work' },
    { key: 'symptom-see', kind: 'seen' },
    { key: 'symptom-reading', kind: 'reading' },
  ] as const;
  const sections = groups.flatMap(({ key, kind }) => {
    const own = symptoms.filter((symptom) => symptom.kind === kind);
    if (own.length === 0) return [];
    return [
      html`<section class="job"><h2>${voice.ui(key)}</h2>
<ul class="entries signs">
${gathered(own, voice.language).map((same) => drawSign(page, same))}</ul></section>
`,
    ];
  });
  return renderPage(page, {
    kind: 'list',
    title: voice.text('symptoms'),
    head: html`<h1>${voice.ui('symptoms')}</h1><p class="summary">${voice.ui('symptoms-hint')}</p>`,
    body: html`${sections.length > 0 ? sections : html`<p>${voice.ui('symptom-none')}</p>`}
<p class="codes-link">${voice.ui('call')}: ${phoneLink(page)}</p>`,
  });
}

// one sign may have several causes: they stand under it together
function gathered(symptoms: readonly Symptom[], language: string): readonly (readonly [Symptom, ...Symptom[]])[] {
  const groups = new Map<string, [Symptom, ...Symptom[]]>();
  for (const symptom of symptoms) {
    const key = JSON.stringify([symptom.sign[language] ?? symptom.sign, symptom.not, symptom.limits]);
    const group = groups.get(key);
    if (group) group.push(symptom);
    else groups.set(key, [symptom]);
  }
  return [...groups.values()];
}

function drawSign(page: Page, same: readonly [Symptom, ...Symptom[]]): Html {
  const causes = same.map((symptom) => {
    const { entry } = symptom;
    const rigs = narrowedFacts(symptom.versions.flatMap((version) => version.rigs));
    const facts = html`${about(entry.procedure)}${rigs !== undefined && html` data-rigs="${rigs}"`}`;
    const where = html`<span class="where">${page.voice.say(entry.procedure.title)}</span>`;
    return html`<li${facts}><a href="${linkTo(page, symptomFolder(symptom))}"><span>${sayCause(page, symptom)}</span>${symptom.kind !== 'work' && where}${drawTaken(entry.procedure, page.voice)}</a></li>`;
  });
  return html`<li class="sign"><b>${saySign(page, same[0])}</b><ul>${causes}</ul></li>
`;
}

function saySign({ voice }: Page, { sign, not, limits }: Symptom): Html {
  if (limits !== undefined)
    return voice.ui('symptom-outside', {
      label: voice.say(sign),
      limits: html`<span class="limits-inline">${voice.number(limits)}</span>`,
    });
  return not ? voice.ui('symptom-not-seen', { expect: voice.say(sign) }) : voice.say(sign);
}

function sayCause({ voice, site }: Page, { cause, condition, look, outcome, kind }: Symptom): Html {
  const which = outcome && html`${voice.ui(outcome)}. `;
  if (condition) {
    const asked = sayCondition(condition, site.book.world, voice);
    return html`${voice.ui('symptom-first')} ${asked}.${look && html` ${voice.say(look)}`}`;
  }
  if (!cause) return html`${which}`;
  if (kind === 'work') return voice.say(cause);
  return html`${which}${kind === 'seen' && html`${voice.ui('symptom-first')} `}${voice.say(cause)}`;
}

/** What has to be done again, and after what. */
export function changesPage(page: Page, home: Home): string {
  const { voice, site } = page;
  const events = [...site.book.book.events.values()].flatMap((event) => {
    const entries = home.entries.filter(({ procedure }) => procedure.voidedBy.includes(event.id));
    return entries.length === 0 ? [] : [{ title: voice.say(wordsOf(event.label, readerOf(page))), entries }];
  });
  const due = home.entries.filter(({ procedure }) => procedure.due !== undefined && procedure.status !== 'withdrawn');
  return renderPage(page, {
    kind: 'list',
    title: voice.text('changes'),
    head: html`<h1>${voice.ui('changes')}</h1><p class="summary">${voice.ui('changes-why')}</p>`,
    body: html`${events.length === 0 && html`<p>${voice.ui('change-none')}</p>`}
${events.map(
  ({ title, entries }) => html`<section class="job"><h2>${title}</h2>
<ul class="entries">
${entries.map((entry) => again(page, entry, gives(page, entry)))}</ul></section>
`,
)}
${
  due.length > 0 &&
  html`<section class="job"><h2>${voice.ui('due-title')}</h2>
<ul class="entries">
${due.map((entry) => again(page, entry, entry.procedure.due && sayDue(page, entry.procedure.due)))}</ul></section>
`
}`,
  });
}

function gives(page: Page, { procedure }: Entry): Html | undefined {
  const label = page.site.book.world.variables.find(({ id }) => id === procedure.gives)?.label;
  return label && page.voice.say(label);
}

function again(page: Page, entry: Entry, aside: Html | string | undefined): Html {
  const { procedure } = entry;
  const more = drawTaken(procedure, page.voice) ?? html`<span class="aside">${aside}</span>`;
  return html`<li${about(procedure)}><a href="${linkTo(page, entry.folder)}"><b>${page.voice.say(procedure.title)}</b>${more}</a></li>
`;
}

/** Every limit of a home on one page. */
export function valuesPage(page: Page, home: Home): string {
  const { voice } = page;
  const measured = home.entries.filter(({ procedure }) => procedure.values.length > 0);
  // versions that differ in something else have the same limits: these hold whichever it is
  const isSplit = ({ versions }: Entry): boolean =>
    new Set(versions.map(({ variant }) => valueRows(page, variant.procedure).html)).size > 1;
  const split = measured.filter(isSplit);
  const whole = measured.filter((entry) => !isSplit(entry));
  return renderPage(page, {
    kind: 'list',
    title: voice.text('all-values'),
    head: html`<h1>${voice.ui('all-values')}</h1><p class="summary">${voice.ui('values-why')}</p>`,
    body: html`${drawOwnHeader(page, home)}${measured.length === 0 && html`<p>${voice.ui('values-none')}</p>`}
${whole.map((entry) => valueSection(page, entry, valueRows(page, entry.procedure)))}
${split.map((entry) =>
  valueSection(
    page,
    entry,
    html`<p class="several">${voice.ui('versions', { count: entry.versions.length })}</p>
${entry.versions.map(({ variant, rigs }) => valueRows(page, variant.procedure, rigs))}`,
  ),
)}`,
  });
}

/** The values of one procedure; of one that was withdrawn its title alone, for its numbers were taken back too. */
function valueSection(page: Page, { folder, procedure }: Entry, rows: Html): Html {
  const { voice } = page;
  const taken = drawTaken(procedure, voice);
  return html`<section class="job"${about(procedure)}><h2><a href="${linkTo(page, folder)}">${voice.say(procedure.title)}</a></h2>
${taken ?? rows}</section>
`;
}

function valueRows(page: Page, { values }: ResolvedProcedure, rigs?: readonly Rig[]): Html {
  const only = rigs && html` data-only="${factsText(rigs)}" hidden`;
  return html`<ul class="rows"${only}>
${values.map((value) => valueRow(page, value.label, value.shown.acceptance ?? value.shown.tolerance, value.instrument?.label))}</ul>
`;
}

function valueRow({ voice }: Page, label: Words, limits: string | undefined, instrument: Words | undefined): Html {
  const by = instrument && html` <span class="aside">${voice.say(instrument)}</span>`;
  return html`<li><span class="wide">${voice.say(label)}${by}</span>${limits === undefined ? voice.ui('record-only') : html`<span class="limits-inline">${voice.number(limits)}</span>`}</li>
`;
}

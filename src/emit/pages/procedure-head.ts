// The head of a procedure's page: for which rig, which revision, and how to tell that it is the right one.

import type { Machine } from '../../model/book.js';
import { wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import type { Voice } from '../voice.js';
import { languageNameIn } from '../words/interface.js';
import { linkToShared, type Page, phoneLink, readerOf } from './context.js';
import { factsText } from './rig-facts.js';
import { sayApplies } from './rig-line.js';
import { describeRig, optionName } from './rig-words.js';
import type { Entry, Home, Version } from './site-map.js';

/** Title, what it is, which rigs it is for, revision, date and code. */
export function drawHead(page: Page, entry: Entry, version: Version): Html {
  const { voice } = page;
  const { procedure } = version.variant;
  const next = procedure.source.reviewed?.next?.value;
  const untranslated = !voice.has(procedure.title);
  return html`<h1>${voice.say(procedure.title)}</h1>
<p class="summary">${voice.say(procedure.summary)}</p>
<p class="meta"><span>${voice.ui('revision', { revision: procedure.revision })}</span>${next !== undefined && html` <span>${voice.ui('review-by', { date: voice.date(next) })}</span>`} <span>${voice.ui('read-out', { code: html`<b class="code">${spokenCode(version.code)}</b>` })}</span></p>
${page.home && html`<p class="meta"><span>${sayApplies(page.home.machine, version.rigs, voice)}</span></p>`}
${untranslated && html`<p class="meta">${voice.ui('untranslated-page', { language: languageNameIn(voice.language, voice.first) })}</p>`}
${drawWrongButton(voice)}
${drawApplies(page, entry, version)}${drawStatus(page, procedure.status)}`;
}

/** What opens the form *this page is wrong*; the client script shows it. */
export function drawWrongButton(voice: Voice): Html {
  return html`<button class="wrong" id="page-wrong" type="button" hidden>${voice.ui('page-is-wrong')}</button>`;
}

/** What the page is only for, and how to tell; nothing where it is for every rig of its home. */
function drawApplies(page: Page, entry: Entry, { rigs }: Version): Html | undefined {
  const { voice, home } = page;
  const phrases = rigs.map((rig) => describeRig(rig, home?.machine, voice)).filter((phrase) => phrase !== '');
  if (phrases.length < rigs.length || !home) return undefined;
  const other = entry.versions.length > 1 && html` <a class="change" href="../?choose">${voice.ui('change')}</a>`;
  return html`<div class="applies" id="applies" data-rigs="${factsText(rigs)}" data-unfit="${voice.text(entry.versions.length > 1 ? 'rig-unfit' : 'rig-unfit-at-all')}" data-right="${voice.text(entry.versions.length > 1 ? 'rig-right' : 'start')}"><p><b>${voice.ui('applies-to')}</b> ${phrases.join(`; ${voice.text('or')} `)}.${other}</p>
${drawTells(page, home, [{ rigs }])}</div>
`;
}

type WithRigs = Pick<Version, 'rigs'>;

/** How to tell the options and the software that rigs are told apart by, folded. */
export function drawTells(page: Page, { machine }: Home, versions: readonly WithRigs[]): Html | undefined {
  const { voice } = page;
  const rigs = versions.flatMap((version) => version.rigs);
  const options = new Set(rigs.flatMap((rig) => [...rig.options.keys()]));
  const modules = new Set(rigs.flatMap((rig) => [...rig.software.keys()]));
  const told = [
    ...[...options].map((id) => ({
      name: optionName(id, machine, voice),
      tell: machine.options.find((option) => option.id === id)?.tell,
    })),
    ...[...modules].map((id) => ({
      name: voice.text('rig-software', { module: id }),
      tell: machine.software.find(({ module }) => module.value === id)?.tell,
    })),
  ];
  const rows = told.flatMap(({ name, tell }) => {
    if (!tell) return [];
    const picture =
      tell.figure && drawFigure(page, tell.figure.file.value, voice.plain(wordsOf(tell.figure.alt, readerOf(page))));
    return [
      html`<li><b>${name.charAt(0).toUpperCase() + name.slice(1)}:</b> ${voice.say(wordsOf(tell.text, readerOf(page)))}${picture}</li>`,
    ];
  });
  if (rows.length === 0) return undefined;
  return html`<details><summary>${voice.ui('how-to-tell')}</summary><ul class="tells">${rows}</ul></details>
`;
}

/** A picture of the book, if its file is there. */
export function drawFigure(page: Page, file: string, alt: string): Html | undefined {
  if (!page.site.figures.has(file)) return undefined;
  return html`<img class="figure" src="${linkToShared(page, file)}" alt="${alt}">`;
}

/** How to tell a machine or a header, with its picture. */
export function drawTell(page: Page, tell: Machine['tell']): Html | undefined {
  if (!tell) return undefined;
  const { voice } = page;
  const picture =
    tell.figure && drawFigure(page, tell.figure.file.value, voice.plain(wordsOf(tell.figure.alt, readerOf(page))));
  return html`<p class="tell">${voice.say(wordsOf(tell.text, readerOf(page)))}</p>${picture}`;
}

function drawStatus(page: Page, status: string): Html | undefined {
  if (status !== 'withdrawn' && status !== 'draft') return undefined;
  const { voice } = page;
  return html`<div class="stop" role="note"><p><b>${voice.ui(`${status}-title`)}</b></p><p>${voice.ui(`${status}-text`, { phone: phoneLink(page) })}</p></div>
`;
}

// One procedure for one kind of rig as a page that reads from top to bottom without any script.

import type { End, ResolvedProcedure, ResolvedStep, Variant } from '../../model/resolved.js';
import type { StepFacts } from '../../order/result.js';
import { isSameForAll } from '../book-text.js';
import { type Html, html, type Part } from '../html.js';
import { blockMarkdown, type Links, type NamedStep } from '../markdown.js';
import { endProcedures, stepLabel } from '../step-label.js';
import { wordFor } from '../words/interface.js';
import { drawCall, drawChecked, drawLeaves } from './after.js';
import { drawCautions, drawConditions, drawReady } from './before.js';
import { homeName, linkTo, linkToShared, type Page, phoneLink } from './context.js';
import { drawRunningDrives } from './drawn-pictures.js';
import { hatching } from './gauge.js';
import { findHazard, isDeadly } from './hazards.js';
import { jobFacts } from './job-facts.js';
import { type Frame, renderPage } from './layout.js';
import { drawHead } from './procedure-head.js';
import type { Entry, Version } from './site-map.js';
import { strippedStates } from './states.js';
import { factsOf } from './step-facts.js';
import { drawSteps, type StepSources, type Trail } from './steps.js';
import { drawOffer, walkFacts } from './walk.js';
import { type Scope, stepAnchor } from './ways.js';

/** The file of a procedure's page. A withdrawn procedure keeps its page and loses its steps. */
export function procedurePage(page: Page, entry: Entry, version: Version): string {
  const { voice, home } = page;
  const { procedure } = version.variant;
  const title = `${voice.plain(procedure.title)} · ${home ? homeName(page, home) : ''}`;
  const frame: Frame = {
    kind: 'procedure',
    title,
    facts: { ...jobFacts(page, version), ...walkFacts(page, version) },
    head: drawHead(page, entry, version),
    judged: { procedure, isDeadly: hazardsOf(page, version.variant).some((id) => isDeadly(findHazard(page, id))) },
    body: html`${drawOffer(procedure.status, voice)}${procedure.status !== 'withdrawn' && drawOnce(page, version)}${drawCall(page, version)}${drawCards(page, version)}${drawChecked(page, version.variant)}`,
  };
  return renderPage(page, frame);
}

/** The printed card of this page, in its language if there is one. */
function drawCards(page: Page, { variant }: Version): Html {
  const cards = page.site.cards.byVariant.get(variant.id) ?? [];
  const own = cards.filter((card) => card.machine === page.home?.machine.id);
  const card = own.find(({ language }) => language === page.voice.language) ?? own[0];
  if (!card) return html``;
  return html`<p class="print-card"><a href="${linkToShared(page, card.path)}">${page.voice.ui('card-print')}</a></p>`;
}

/** Links of a page, each remembered as it is asked for. */
interface AskedLinks {
  procedure(id: string): string | undefined;
  givers(state: string): readonly Html[];
  readonly asked: ReadonlyMap<string, string>;
}

function linksAsked(page: Page, { id }: ResolvedProcedure): AskedLinks {
  const asked = new Map<string, string>();
  const note = (key: string, answer: string): void => void asked.set(key, answer);
  return {
    asked,
    procedure: (other) => {
      const href = procedureHref(page, other);
      note(`procedure ${other}`, href ?? '');
      return href;
    },
    givers: (state) => {
      const links = giverLinks(page, id, state);
      note(`givers ${state}`, html`${links}`.html);
      return links;
    },
  };
}

/** The work of a page from cautions to prose. Homes share most of it: drawing each once is most of the speed of a build. */
export function drawOnce(page: Page, { variant, folder }: Version): Html {
  const hazards = [...page.site.book.book.hazards.values()];
  const sameHazards = hazards.every(({ what, harm, avoid }) => [what, harm, avoid].every(isSameForAll));
  const depth = folder.split('/').length;
  const key = [page.voice.language, variant.id, depth, sameHazards ? '' : page.home?.folder].join(' ');
  const drawn = page.site.drawn.get(key) ?? [];
  for (const { asked, body } of drawn) {
    const now = linksAsked(page, variant.procedure);
    for (const question of asked.keys()) askAgain(now, question);
    if ([...asked].every(([question, answer]) => now.asked.get(question) === answer)) return body;
  }
  const links = linksAsked(page, variant.procedure);
  const body = drawWork(page, variant, links);
  page.site.drawn.set(key, [...drawn, { asked: links.asked, body }]);
  return body;
}

function askAgain(links: AskedLinks, question: string): void {
  const [kind, id = ''] = question.split(' ');
  if (kind === 'procedure') links.procedure(id);
  else links.givers(id);
}

function drawWork(page: Page, variant: Variant, links: AskedLinks): Html {
  const { voice } = page;
  const { procedure } = variant;
  const { sources, scope, hazards } = workOf(page, variant, links);
  const trail: Trail = { hazards: [] };
  return html`${hatching}
${drawCautions(page, hazards)}${drawReady(procedure, voice)}${drawConditions(variant, { voice, givers: links.givers })}<section class="work" id="steps"><h2>${voice.ui('steps')}</h2>
${drawRunningDrives(page, variant)}${drawSteps(scope, sources, trail)}</section>
${drawLeaves(page, variant)}${drawEnds(page, variant, sources)}${drawProse(page, procedure, links)}`;
}

/** What the procedure lists and what its steps meet. */
function hazardsOf(page: Page, variant: Variant): readonly string[] {
  const met = [...factsOf(page, variant).values()].flatMap(({ hazards }) => hazards);
  return [...new Set([...variant.procedure.hazards, ...met])];
}

/** What the parts of a page are drawn from. */
export interface Work {
  readonly scope: Scope;
  readonly sources: StepSources;
  /** All that are met on any way through it. */
  readonly hazards: readonly string[];
  readonly links: AskedLinks;
}

/** The same for a page whose parts are drawn one by one. */
export function workOf(page: Page, variant: Variant, links = linksAsked(page, variant.procedure)): Work {
  return {
    scope: scopeOf(page, variant),
    sources: sourcesOf(page, factsOf(page, variant), links),
    hazards: hazardsOf(page, variant),
    links,
  };
}

function scopeOf(page: Page, variant: Variant): Scope {
  const endSteps = new Map<End, string>();
  for (const { procedure, ends, prefix } of endProcedures(variant)) {
    const first = procedure.steps[0];
    if (first) for (const end of ends) endSteps.set(end, stepLabel(first, prefix));
  }
  return {
    procedure: variant.procedure,
    prefix: '',
    voice: page.voice,
    world: page.site.book.world,
    phone: phoneLink(page),
    endSteps,
  };
}

function sourcesOf(page: Page, facts: ReadonlyMap<string, StepFacts>, links: AskedLinks): StepSources {
  return {
    facts: (label) => facts.get(label),
    shownStates: strippedStates(facts.values(), page.site.book.world),
    hazard: (id) => findHazard(page, id),
    procedureHref: links.procedure,
    figureHref: (file) => figureHref(page, file),
    detail: (scope, step) => drawDetail(page, scope, step, links),
  };
}

function procedureHref(page: Page, id: string): string | undefined {
  const entry = page.home?.byId.get(id);
  return entry && linkTo(page, entry.folder);
}

function figureHref(page: Page, file: string): string | undefined {
  return page.site.figures.has(file) ? linkToShared(page, file) : undefined;
}

function giverLinks(page: Page, procedure: string, state: string): readonly Html[] {
  return (page.home?.givers.get(state) ?? [])
    .filter((entry) => entry.id !== procedure && entry.procedure.status !== 'withdrawn')
    .map((entry) => html`<a href="${linkTo(page, entry.folder)}">${page.voice.say(entry.procedure.title)}</a>`);
}

/** What ends run, each once: which ends, in words, and how its steps are spoken of. */
export function endScopes(page: Page, variant: Variant): readonly { readonly names: string; readonly scope: Scope }[] {
  const { voice } = page;
  return endProcedures(variant).map(({ procedure, ends, prefix }) => ({
    names: ends.map((end) => voice.text(end === 'stop' ? 'end-stop' : 'end-call')).join(`, ${voice.text('or')} `),
    scope: { ...scopeOf(page, variant), procedure, prefix, endSteps: new Map() },
  }));
}

function drawEnds(page: Page, variant: Variant, sources: StepSources): readonly Html[] {
  const { voice } = page;
  return endScopes(page, variant).map(
    ({ names, scope }) => html`<section class="end-steps" id="end-${scope.prefix}"><h2>${voice.ui('end-safe')}</h2>
<p class="aside">${voice.ui('end-safe-why', { ends: names })}</p>
${drawSteps(scope, sources, { hazards: [] })}</section>
`,
  );
}

/** The prose of a procedure in the page's language, or in the first one, marked so. */
function proseOf(
  page: Page,
  procedure: ResolvedProcedure,
): { sections: ResolvedProcedure['prose'][string]; language: string } {
  const own = procedure.prose[page.voice.language];
  return own
    ? { sections: own, language: page.voice.language }
    : { sections: procedure.prose[page.voice.first] ?? [], language: page.voice.first };
}

function inLanguage(page: Page, language: string, prose: Html): Html {
  return language === page.voice.language ? prose : html`<div lang="${language}">${prose}</div>`;
}

function drawDetail(page: Page, { procedure, prefix }: Scope, step: ResolvedStep, asked: AskedLinks): Part {
  const { sections, language } = proseOf(page, procedure);
  const own = sections.filter((section) => section.step === step.id && section.markdown.trim() !== '');
  if (own.length === 0) return undefined;
  const links = linksOf(page, { procedure, prefix, language }, asked);
  return inLanguage(
    page,
    language,
    html`${own.map(({ markdown }) => renderProse(page, markdown, { level: 3, links }))}`,
  );
}

// the same procedure is run on many pages: prose without links, and without names of steps, is the same on all of them
function renderProse({ site }: Page, markdown: string, options: { level: number; links: Links }): Html {
  const key = `${options.level} ${markdown}`;
  const known = site.rendered.get(key);
  if (known) return known;
  const made = blockMarkdown(markdown, options);
  if (!/[[<`]|https?:/.test(markdown)) site.rendered.set(key, made);
  return made;
}

/** The prose that belongs to no step. */
export function drawProse(page: Page, procedure: ResolvedProcedure, asked: AskedLinks): Html | undefined {
  const { sections, language } = proseOf(page, procedure);
  const free = sections.filter(
    (section) => section.step === undefined && (section.heading !== undefined || section.markdown.trim() !== ''),
  );
  if (free.length === 0) return undefined;
  const links = linksOf(page, { procedure, prefix: '', language }, asked);
  const written = free.map(({ heading, depth = 2, markdown }) => {
    const title = heading !== undefined && (depth <= 2 ? html`<h2>${heading}</h2>` : html`<h3>${heading}</h3>`);
    return html`${title}
${renderProse(page, markdown, { level: depth <= 2 ? 2 : 3, links })}
`;
  });
  return html`<section class="prose">${inLanguage(page, language, html`${written}`)}</section>
`;
}

/** A procedure as it is drawn on a page: by itself, or as part of another whose steps go before its own. */
interface Drawn {
  readonly procedure: ResolvedProcedure;
  readonly prefix: string;
  /** That of the prose. */
  readonly language: string;
}

function linksOf(page: Page, { procedure, prefix, language }: Drawn, asked: AskedLinks): Links {
  const stepOf = (id: string | undefined): NamedStep | undefined => {
    const step = procedure.steps.find((one) => one.id === id);
    if (!step) return undefined;
    const label = stepLabel(step, prefix);
    return { href: `#${stepAnchor(label)}`, label, text: wordFor(language, 'step-link', { label }) };
  };
  return {
    figure: (file) => figureHref(page, file.replace(/^(?:\.{0,2}\/)*/, '')),
    link: (target) => {
      const [file = '', part] = target.split('#');
      const id = file.replace(/^.*\//, '').replace(/\.md$/, '');
      return file !== '' && id !== procedure.id ? asked.procedure(id) : stepOf(part)?.href;
    },
    step: stepOf,
  };
}

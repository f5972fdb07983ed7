// A procedure for whoever cannot tell which rig it is: what holds for all that it may be. What differs is left out, and
// said so. Parts are drawn for each and compared as they would be read, so that nothing of one rig slips in as if of all.

import type { ResolvedStep } from '../../model/resolved.js';
import { type Html, html, trusted } from '../html.js';
import { spokenCode } from '../short-code.js';
import { stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import { drawCall, drawLeaves } from './after.js';
import { drawCondition, drawReady } from './before.js';
import { homeName, linkTo, type Page, phoneLink } from './context.js';
import { hatching } from './gauge.js';
import { drawHazard, findHazard, isDeadly, worstFirst } from './hazards.js';
import { commonFacts } from './job-facts.js';
import { renderPage } from './layout.js';
import { drawWrongButton } from './procedure-head.js';
import { drawOnce, drawProse, endScopes, type Work, workOf } from './procedure-page.js';
import { describeRig } from './rig-words.js';
import type { CommonEntry, Entry, Home, Place } from './site-map.js';
import { drawStepAlone } from './steps.js';
import { drawValue } from './values.js';
import { type Scope, stepAnchor } from './ways.js';

/** Where a page of this kind stands: in a group of homes, or below a procedure of one home. */
export interface CommonPlace {
  /** All that it may be, in words. */
  readonly rigs: string;
  /** What the way back is called and where it leads. */
  readonly back: { readonly words: string; readonly folder: string };
  /** The page that says how to tell. */
  readonly tell: string;
  /** What links of the page lead to. */
  readonly linked: Pick<Home, 'folder' | 'entries' | 'byId' | 'givers'>;
}

/** Where the page of what all versions of one procedure have in common stands. */
export function placeOfEntry(page: Page, home: Home, entry: Entry): CommonPlace {
  const { voice } = page;
  const words = entry.versions.flatMap(({ rigs }) => rigs.map((rig) => describeRig(rig, home.machine, voice)));
  const place: Page = { ...page, home };
  return {
    rigs: words.join('; '),
    back: { words: homeName(place, home), folder: home.folder },
    tell: `${home.folder}rig.html`,
    linked: home,
  };
}

/** The title where it is the same for all; otherwise the procedure's id in words. */
export function commonTitle({ id, places }: CommonEntry, voice: Voice): string {
  const titles = new Set(places.map(({ version }) => voice.plain(version.variant.procedure.title)));
  const [title = id] = titles;
  return titles.size === 1 ? title : id.replaceAll('-', ' ');
}

interface View {
  readonly page: Page;
  readonly place: Place;
  readonly work: Work;
}

/** The file of the page. */
export function commonPage(page: Page, entry: CommonEntry, where: CommonPlace): string {
  const { voice } = page;
  const { procedure } = entry;
  const views = viewsOf(page, entry, where);
  const one = views.length === 1 ? views[0] : undefined;
  const title = commonTitle(entry, voice);
  const withdrawn = procedure.status === 'withdrawn';
  return renderPage(page, {
    kind: 'procedure common',
    title: `${title} · ${voice.text('common-title')}`,
    rig: where.back,
    kept: where.linked,
    facts: commonFacts(page, entry, { title, rig: `${where.back.words} · ${where.rigs}` }),
    judged: {
      procedure,
      isDeadly: views.some(({ page: own, work }) => work.hazards.some((id) => isDeadly(findHazard(own, id)))),
    },
    head: html`<h1>${title}</h1>
<p class="summary">${same(views, ({ place }) => voice.say(place.version.variant.procedure.summary))}</p>
<p class="meta"><span>${voice.ui('revision', { revision: procedure.revision })}</span> <span>${voice.ui('read-out', { code: html`<b class="code">${spokenCode(entry.code)}</b>` })}</span></p>
${drawWrongButton(voice)}
<div class="applies"><p><b>${voice.ui('common-title')}</b> ${voice.ui(one ? 'common-all' : 'common-why', { rigs: where.rigs })} <a href="${linkTo(page, where.tell)}">${voice.ui('common-tell')}</a></p></div>
${withdrawn && html`<div class="stop" role="note"><p><b>${voice.ui('withdrawn-title')}</b></p><p>${voice.ui('withdrawn-text', { phone: phoneLink(page) })}</p></div>`}`,
    body: html`${!withdrawn && (one ? drawOnce(one.page, one.place.version) : drawShared(views, voice))}${drawCall(page, entry)}`,
  });
}

/** One view for each content and each reader that would see it in other words. */
function viewsOf(page: Page, { places }: CommonEntry, { linked }: CommonPlace): readonly [View, ...View[]] {
  const seen = new Map<string, View>();
  for (const place of places) {
    // hazards may be worded by machine: only homes that read alike share a view
    const home: Home = { ...place.home, ...linked };
    const own: Page = { ...page, home };
    const work = workOf(own, place.version.variant);
    const words = work.hazards.map((id) => drawHazard(findHazard(own, id), page.voice).html);
    const key = `${place.version.variant.id} ${words.join('')}`;
    if (!seen.has(key)) seen.set(key, { page: own, place, work });
  }
  const [first, ...rest] = seen.values();
  if (!first) throw new Error('A page for rigs that are not told apart has none');
  return [first, ...rest];
}

/** What all views draw alike; nothing where they differ. */
function same(views: readonly View[], draw: (view: View) => Html): Html | undefined {
  return alike(views.map(draw));
}

function alike([first, ...others]: readonly Html[]): Html | undefined {
  return first && others.every(({ html: text }) => text === first.html) ? first : undefined;
}

function drawShared(views: readonly View[], voice: Voice): Html {
  const differs = html`<p class="differs">${voice.ui('differs')}</p>`;
  const part = (draw: (view: View) => Html, title: Html): Html =>
    same(views, draw) ?? html`<section><h2>${title}</h2>${differs}</section>`;
  return html`${hatching}
${drawAllCautions(views)}${part(({ place }) => drawReady(place.version.variant.procedure, voice), voice.ui('have'))}
${drawSharedConditions(views)}<section class="work" id="steps"><h2>${voice.ui('steps')}</h2>
${drawSharedSteps(views.map((view) => ({ view, scope: view.work.scope })))}</section>
${part(({ page, place }) => drawLeaves(page, place.version.variant), voice.ui('end'))}
${drawSharedEnds(views, voice)}
${same(views, ({ page, place, work }) => html`${drawProse(page, place.version.variant.procedure, work.links)}`)}`;
}

/** Every caution of any of them: one too many does no harm. */
function drawAllCautions(views: readonly View[]): Html | undefined {
  const voice = views[0]?.page.voice;
  const all = views.flatMap(({ page, work }) => work.hazards.map((id) => findHazard(page, id)));
  if (!voice || all.length === 0) return undefined;
  const panels = new Set(worstFirst(all).map((hazard) => drawHazard(hazard, voice).html));
  return html`<section class="cautions"><h2>${voice.ui('cautions')}</h2>
${[...panels].map((panel) => trusted(panel))}</section>
`;
}

function drawSharedConditions(views: readonly View[]): Html | undefined {
  const voice = views[0]?.page.voice;
  if (!voice) return undefined;
  const lists = views.map(({ place, work }) =>
    place.version.variant.procedure.requires.map(
      (one) => drawCondition(one, { voice, givers: work.links.givers }).html,
    ),
  );
  const [first = [], ...others] = lists;
  const shared = first.filter((item) => others.every((list) => list.includes(item)));
  const left = lists.some((list) => list.length > shared.length);
  return html`<section class="before" id="before"><h2>${voice.ui('before')}</h2>
${shared.length > 0 && html`<ul class="ticks">${shared.map((item) => trusted(item))}</ul>`}
${left && html`<p class="differs">${voice.ui('differs-conditions')}</p>`}
${shared.length === 0 && !left && html`<p>${voice.ui('nothing-before')}</p>`}</section>
`;
}

/** One view with the procedure whose steps are drawn: its own, or one that its ends run. */
interface Told {
  readonly view: View;
  readonly scope: Scope;
}

type Having = ReadonlyMap<Told, ResolvedStep>;

// steps are numbered once over all rigs: the same number is the same step
function drawSharedSteps(told: readonly Told[]): Html {
  const byNumber = new Map<number, Map<Told, ResolvedStep>>();
  for (const one of told) {
    for (const step of one.scope.procedure.steps) {
      const known = byNumber.get(step.number) ?? new Map<Told, ResolvedStep>();
      byNumber.set(step.number, known.set(one, step));
    }
  }
  const steps = [...byNumber].sort(([a], [b]) => a - b);
  return html`<ol class="steps">
${steps.map(([number, of]) => drawSharedStep(stepLabel({ number }, told[0]?.scope.prefix), of, told.length))}</ol>`;
}

function drawSharedStep(label: string, of: Having, count: number): Html {
  const having = [...of];
  const drawn = having.map(([{ view, scope }, step]) => drawStepAlone(step, scope, view.work.sources));
  const whole = having.length === count ? alike(drawn) : undefined;
  return html`<li class="step" id="${stepAnchor(label)}">
${drawStepHazards(label, of)}${whole ?? drawRest(label, of, count)}</li>
`;
}

/** The cautions of a step on any of them. */
function drawStepHazards(label: string, of: Having): readonly Html[] {
  const panels = new Map<string, Html>();
  for (const [{ view, scope }, step] of of) {
    const ids = view.work.sources.facts(label)?.hazards ?? step.hazards;
    for (const hazard of worstFirst(ids.map((id) => view.work.sources.hazard(id)))) {
      const panel = drawHazard(hazard, scope.voice);
      panels.set(panel.html, panel);
    }
  }
  return [...panels.values()];
}

/** Of a step that differs: what it asks to do and the values that are alike; of the others their names alone. */
function drawRest(label: string, of: Having, count: number): Html {
  const having = [...of];
  const voice = having[0]?.[0].scope.voice;
  if (!voice) throw new Error(`No rig has the step ${label}`);
  const words = alike(having.map(([, step]) => voice.say(step.do ?? step.ask ?? step.run?.title)));
  const measured = [...new Set(having.flatMap(([, step]) => step.measure))];
  const why = having.length < count ? 'differs-some' : words ? 'differs-step' : 'differs-whole';
  return html`<div class="step-body">
<p class="step-number"><a href="#${stepAnchor(label)}">${voice.text('step', { label })}</a></p>
${words && html`<p class="do">${words}</p>`}${measured.map((id) => drawMeasure(id, [...of.keys()], voice))}
<p class="differs">${voice.ui(why)}</p></div>
`;
}

function drawMeasure(id: string, having: readonly Told[], voice: Voice): Html {
  const values = having.map(({ scope }) => ({ scope, value: scope.procedure.values.find((one) => one.id === id) }));
  const whole = alike(values.map(({ scope, value }) => (value ? drawValue(value, scope.procedure, voice) : html``)));
  if (whole) return whole;
  const name = alike(values.map(({ value }) => voice.say(value?.label)));
  return name && name.html !== ''
    ? html`<div class="value"><p class="value-label">${name}</p><p>${voice.ui('differs-value')}</p></div>`
    : html``;
}

/** The steps that make safe, for each end that runs some. */
function drawSharedEnds(views: readonly View[], voice: Voice): readonly Html[] {
  const ends = views.map((view) =>
    endScopes(view.page, view.place.version.variant).map(({ names, scope }) => ({ names, told: { view, scope } })),
  );
  const [first = []] = ends;
  return first.map(({ names, told: { scope } }, i) => {
    const told = ends.flatMap((list) => list[i]?.told ?? []);
    const isShared = ends.every((list) => list.length === first.length && list[i]?.names === names);
    return html`<section class="end-steps" id="end-${scope.prefix}"><h2>${voice.ui('end-safe')}</h2>
<p class="aside">${voice.ui('end-safe-why', { ends: names })}</p>
${isShared ? drawSharedSteps(told) : html`<p class="differs" id="${stepAnchor(`${scope.prefix}1`)}">${voice.ui('differs')}</p>`}</section>
`;
  });
}

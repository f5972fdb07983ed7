// The steps of a procedure, numbered as everywhere, each with what stands before it: hazards, what must hold, the state.

import type { ReadingOutcome } from '../../model/procedure.js';
import type { ResolvedStep } from '../../model/resolved.js';
import type { StepFacts } from '../../order/result.js';
import { type Html, html, type Part, trusted } from '../html.js';
import { stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import { drawHazard, type HazardWords, worstFirst } from './hazards.js';
import { drawStrip, plainCondition, sayCondition, sayPlace } from './states.js';
import { drawAdjuster, drawValue, drawWorksheet } from './values.js';
import { type Scope, sayBranch, sayNext, sayTarget, stepAnchor, stepLink } from './ways.js';

/** What the steps of a page need beside the procedure itself. */
export interface StepSources {
  facts(label: string): StepFacts | undefined;
  readonly shownStates: ReadonlySet<string>;
  hazard(id: string): HazardWords;
  /** A link to the page of a procedure, where this home has one. */
  procedureHref(id: string): string | undefined;
  figureHref(file: string): string | undefined;
  /** The prose that belongs to a step, rendered. */
  detail(scope: Scope, step: ResolvedStep): Part;
}

/** Where the writing of the page has come to: hazards and facts of the step before. */
export interface Trail {
  hazards: readonly string[];
  facts?: StepFacts | undefined;
  needs?: string;
}

/** The list of a procedure's steps. `trail` runs on from one list into those nested in it. */
export function drawSteps(scope: Scope, sources: StepSources, trail: Trail): Html {
  const items = scope.procedure.steps.map((step) => drawStep(step, scope, sources, trail));
  return html`<ol class="steps${/\d$/.test(scope.prefix) && ' nested'}">
${items}</ol>
`;
}

function drawStep(step: ResolvedStep, scope: Scope, sources: StepSources, trail: Trail): Html {
  const label = stepLabel(step, scope.prefix);
  const facts = sources.facts(label);
  const hazards = facts?.hazards ?? step.hazards;
  const panels = worstFirst(hazards.filter((id) => !trail.hazards.includes(id)).map((id) => sources.hazard(id)));
  const strip =
    facts && drawStrip({ facts, earlier: trail.facts, shown: sources.shownStates }, scope.world, scope.voice);
  // a step that runs others is only their heading: the stretch goes on inside
  if (!step.run || hazards.length > 0) trail.hazards = hazards;
  trail.facts = facts ?? trail.facts;
  return html`<li class="step" id="${stepAnchor(label)}">
${panels.map((hazard) => drawHazard(hazard, scope.voice))}${body(step, label, { scope, sources, trail, strip })}</li>
`;
}

/** A step by itself, whatever stands before it: without the strip of states, and with all that it needs. */
export function drawStepAlone(step: ResolvedStep, scope: Scope, sources: StepSources): Html {
  return body(step, stepLabel(step, scope.prefix), { scope, sources, trail: { hazards: [] }, strip: undefined });
}

interface Surroundings {
  readonly scope: Scope;
  readonly sources: StepSources;
  readonly trail: Trail;
  readonly strip: Html | undefined;
}

function body(step: ResolvedStep, label: string, { scope, sources, trail, strip }: Surroundings): Html {
  const { voice } = scope;
  const detail = sources.detail(scope, step);
  return html`<div class="step-body">
<p class="step-number"><a href="#${stepAnchor(label)}">${voice.text('step', { label })}</a>${marks(step, scope)}</p>
${strip}${needs(step, scope, trail)}${energized(step, voice)}${anyOrder(step, scope)}
${step.run ? runTitle(step, scope, sources) : html`<p class="do">${voice.say(step.do ?? step.ask)}</p>`}
${figure(step, sources, voice)}${durations(step, voice)}${step.note && html`<p class="note">${voice.ui('note')} ${voice.say(step.note)}</p>`}
${step.measure.map((id) => drawMeasured(id, scope))}${writing(step, scope)}${adjusters(step, scope)}${marking(step, voice)}
${expectation(step, scope)}${outcomes(step, scope)}${answers(step, scope)}${onward(step, scope)}
${detail && html`<details><summary>${voice.ui('more-step')}</summary><div class="prose">${detail}</div></details>`}
${step.run && drawSteps({ ...scope, procedure: step.run, prefix: label, afterwards: sayNext(step, scope) }, sources, trail)}</div>
`;
}

/** The tables into which a row is written here, each with the step where it stands and is judged. */
function writing({ write = [], measure }: ResolvedStep, { procedure, prefix, voice }: Scope): readonly Html[] {
  return procedure.worksheets
    .filter(({ id }) => write.includes(id) && !measure.includes(id))
    .map(({ id, label }) => {
      const judged = procedure.steps.find((step) => step.measure.includes(id));
      const table = label ? voice.say(label) : voice.ui('worksheet');
      const words = judged
        ? voice.ui('write-into-at', { table, step: stepLink(stepLabel(judged, prefix), voice) })
        : voice.ui('write-into', { table });
      return html`<p class="into">${words}</p>
`;
    });
}

function marks(step: ResolvedStep, { procedure, voice, world }: Scope): readonly Html[] {
  return [
    step.place !== undefined && voice.text('stand-at', { place: sayPlace(step.place, world, voice) }),
    step.skill === 'technician' && procedure.skill !== 'technician' && voice.text('technician-step'),
    step.by > 1 && voice.text('people-step', { count: step.by }),
  ]
    .filter((mark) => mark !== false)
    .map((mark) => html` <span class="mark">${mark}</span>`);
}

// conditions that stay the same from step to step are said once; the strip goes on showing them
function needs({ needs: conditions }: ResolvedStep, { voice, world }: Scope, trail: Trail): Html | undefined {
  const asked = conditions.map((condition) => plainCondition(condition, world, voice)).join(' · ');
  const same = asked === trail.needs;
  trail.needs = asked;
  if (asked === '' || same) return undefined;
  const items = conditions.map(
    (condition, i) => html`${i > 0 && ' · '}<span>${sayCondition(condition, world, voice)}</span>`,
  );
  return html`<p class="needs">${voice.ui('needs-now')} ${items}</p>
`;
}

function energized({ energized: work }: ResolvedStep, voice: Voice): Html | undefined {
  if (!work) return undefined;
  return html`<div class="energized"><p><b>${voice.ui('energized')}.</b> ${voice.say(work.why)}</p>
${work.keepAway && html`<p><b>${voice.ui('keep-away')}</b> ${voice.say(work.keepAway)}</p>`}
${work.secondPerson && html`<p><b>${voice.ui('second-person')}</b> ${voice.say(work.secondPerson)}</p>`}</div>
`;
}

function anyOrder(step: ResolvedStep, { procedure, prefix, voice }: Scope): Html | undefined {
  const group = procedure.anyOrder.find((ids) => ids[0] === step.id);
  if (!group) return undefined;
  const members = procedure.steps.filter(({ id }) => group.includes(id));
  const links = members.map((member, i) => html`${i > 0 && ', '}${stepLink(stepLabel(member, prefix), voice)}`);
  return html`<p class="any-order">${voice.ui('any-order', { steps: html`${links}` })}</p>
`;
}

function runTitle(step: ResolvedStep, { voice }: Scope, sources: StepSources): Html {
  const run = step.run;
  if (!run) return html``;
  const href = sources.procedureHref(run.id);
  const title = href === undefined ? voice.say(run.title) : html`<a href="${href}">${voice.say(run.title)}</a>`;
  return html`${step.do && html`<p class="do">${voice.say(step.do)}</p>`}<p class="do">${voice.ui('run-here', { procedure: title })}</p>`;
}

function figure({ figure: picture }: ResolvedStep, sources: StepSources, voice: Voice): Html | undefined {
  const href = picture && sources.figureHref(picture.file);
  if (!picture || href === undefined) return undefined;
  return html`<img class="figure" src="${href}" alt="${voice.plain(picture.alt)}">
`;
}

// a text that says how long itself is not said it again
function durations({ hold, wait, do: words }: ResolvedStep, voice: Voice): readonly Html[] {
  const said = plainSpaces(voice.plain(words));
  const lines = [hold && ([voice.ui('hold'), hold.text] as const), wait && ([voice.ui('wait'), wait.text] as const)];
  return lines
    .filter((line) => line !== undefined)
    .filter(([, text]) => !said.includes(plainSpaces(voice.number(text))))
    .map(([word, text]) => html`<p class="duration">${word} <b class="limits-inline">${voice.number(text)}</b></p>`);
}

function plainSpaces(text: string): string {
  return text.replaceAll('\u00a0', ' ');
}

function drawMeasured(id: string, { procedure, voice }: Scope): Html {
  const value = procedure.values.find((one) => one.id === id);
  if (value) return drawValue(value, procedure, voice);
  const worksheet = procedure.worksheets.find((one) => one.id === id);
  if (!worksheet) throw new Error(`Nothing is called ${id} in ${procedure.id}`);
  return drawWorksheet(worksheet, voice);
}

function adjusters(step: ResolvedStep, { procedure, voice }: Scope): readonly Html[] {
  return procedure.adjusters
    .filter(({ id }) => step.adjust.includes(id))
    .map((adjuster) => drawAdjuster(adjuster, procedure, voice));
}

function marking({ mark, photo }: ResolvedStep, voice: Voice): readonly Html[] {
  const words = mark?.map((one, i) => html`${i > 0 && ' · '}<span class="choice">${one.replaceAll('-', ' ')}</span>`);
  return [
    words && html`<p class="marks">${voice.ui('mark-as')} ${words}</p>`,
    photo !== undefined && html`<p class="marks">${voice.ui('photo')}</p>`,
  ].filter((part): part is Html => typeof part === 'object');
}

function expectation(step: ResolvedStep, scope: Scope): Html | undefined {
  const { voice } = scope;
  const { expect, otherwise } = step;
  if (!expect && !otherwise) return undefined;
  const because = otherwise?.because && html`${voice.say(otherwise.because)} `;
  return html`${expect && html`<p class="expect"><b>${voice.ui('you-see')}</b> ${voice.say(expect)}</p>`}
${otherwise && html`<p class="if-not"><b>${voice.ui('if-not')}</b> ${because}${sentence(sayBranch(otherwise, scope))}</p>`}
`;
}

const icons: Readonly<Record<string, Html>> = {
  inside: trusted(
    '<svg class="verdict" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><rect x="1.5" y="1.5" width="21" height="21"/><path d="M5.5 12.5l4.5 5 8.5-11"/></svg>',
  ),
  outside: trusted(
    '<svg class="verdict solid" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><rect x="1.5" y="1.5" width="21" height="21"/><path d="M6.5 6.5l11 11M17.5 6.5l-11 11"/></svg>',
  ),
  unsure: trusted(
    '<svg class="verdict" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><rect x="1.5" y="1.5" width="21" height="21" fill="url(#hatch)"/></svg>',
  ),
};

const outcomeOrder: readonly ReadingOutcome[] = ['low', 'high', 'outside', 'unsure', 'fault'];

function outcomes(step: ResolvedStep, scope: Scope): Html | undefined {
  if (step.when.size === 0) return undefined;
  const { voice } = scope;
  const rows = outcomeOrder.flatMap((outcome) => {
    const branch = step.when.get(outcome);
    if (!branch) return [];
    const because = branch.because && html`${voice.say(branch.because)} `;
    const icon = icons[outcome === 'unsure' ? 'unsure' : 'outside'];
    return [
      html`<li>${icon}<span><b>${voice.ui(outcome)}:</b> ${because}${sentence(sayBranch(branch, scope))}</span></li>`,
    ];
  });
  return html`<ul class="ways"><li>${icons.inside}<span><b>${voice.ui('inside')}:</b> ${sentence(sayNext(step, scope))}</span></li>${rows}</ul>
`;
}

function answers(step: ResolvedStep, scope: Scope): Html | undefined {
  if (step.answers.length === 0) return undefined;
  const rows = step.answers.map(
    ({ label, branch }) =>
      html`<li><span><b>${scope.voice.say(label)}:</b> ${sentence(sayBranch(branch, scope))}</span></li>`,
  );
  return html`<ul class="ways answers">${rows}</ul>
`;
}

// what follows without a reading or an answer is said only where it is not simply the next step
function onward(step: ResolvedStep, scope: Scope): Html | undefined {
  if (!step.then || step.when.size > 0) return undefined;
  const way =
    step.then.atMost === undefined && !step.then.means.length
      ? sayTarget(step.then.go, scope)
      : sayBranch(step.then, scope);
  return html`<p class="onward"><b>${scope.voice.ui('then')}</b> ${sentence(way)}</p>
`;
}

/** Words that lead somewhere as a sentence of their own. */
function sentence(words: Html): Html {
  return trusted(`${words.html.replace(/^\p{Ll}/u, (letter) => letter.toUpperCase())}.`);
}

// What stands between the head and the first step: the cautions together, what to have ready, conditions to tick.

import type { ResolvedProcedure, ResolvedRequirement, Variant } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';
import type { Page } from './context.js';
import { drawHazard, findHazard, worstFirst } from './hazards.js';
import { inOneUnit } from './times.js';
import { pair } from './values.js';

/** All hazards of the procedure, the worst first. */
export function drawCautions(page: Page, hazards: readonly string[]): Html | undefined {
  if (hazards.length === 0) return undefined;
  const panels = worstFirst(hazards.map((id) => findHazard(page, id)));
  return html`<section class="cautions"><h2>${page.voice.ui('cautions')}</h2>
${panels.map((hazard) => drawHazard(hazard, page.voice))}</section>
`;
}

/** Tools, supplies, people, time and who does it. */
export function drawReady(procedure: ResolvedProcedure, voice: Voice): Html {
  const list = (items: readonly Html[]): Html =>
    items.length === 0 ? voice.ui('none') : html`${items.map((item, i) => html`${i > 0 && ', '}${item}`)}`;
  const people = procedure.people === 1 ? voice.ui('one-person') : voice.ui('some-people', { count: procedure.people });
  return html`<section class="ready"><h2>${voice.ui('have')}</h2>
<dl class="pairs">
${pair(voice.ui('tools'), list(procedure.tools.map(({ label }) => voice.say(label))))}
${pair(voice.ui('supplies'), list(procedure.supplies.map((words) => voice.say(words))))}
${pair(voice.ui('who-does'), html`${voice.ui(procedure.skill)}, ${people}`)}
${sayTime(procedure, voice)}
</dl></section>
`;
}

/** In all, then by parts, all in one unit. */
function sayTime({ time = {} }: ResolvedProcedure, voice: Voice): Html | undefined {
  const said = [
    [time.total, (text: string) => text],
    [time.handsOn, (text: string) => voice.text('hands-on', { time: text })],
    [time.waiting, (text: string) => voice.text('waiting', { time: text })],
  ] as const;
  const given = said.flatMap(([text, say]) => (text === undefined ? [] : [{ text, say }]));
  if (given.length === 0) return undefined;
  const shown = inOneUnit(given.map(({ text }) => text));
  const parts = given.map(({ say }, i) => say(voice.number(shown[i] ?? '')));
  return pair(voice.ui('time'), html`${parts.join(', ')}`);
}

export interface ConditionSources {
  readonly voice: Voice;
  /** Links to the procedures of this home that leave a state behind. */
  readonly givers: (state: string) => readonly Html[];
}

/** The conditions, each with a box to tick, how it is shown and what happens if it is missed. */
export function drawConditions({ procedure }: Variant, sources: ConditionSources): Html {
  const { voice } = sources;
  const items = procedure.requires.map((requirement, i) => drawCondition(requirement, sources, i + 1));
  return html`<section class="before" id="before"><h2>${voice.ui('before')}</h2>
${
  items.length === 0
    ? html`<p>${voice.ui('nothing-before')}</p>`
    : html`<p class="aside">${voice.ui('before-how')}</p>
<ul class="ticks">
${items}</ul>`
}</section>
`;
}

/** One condition with its box; `count` is its place on its page, where it has one. */
export function drawCondition(
  requirement: ResolvedRequirement,
  { voice, givers }: ConditionSources,
  count?: number,
): Html {
  const { words, shownBy, ifMissed, throughout } = requirement;
  const first = givers(requirement.condition.state);
  return html`<li${count !== undefined && html` id="first-${count}"`}><label><input type="checkbox"><span class="tick-words">${voice.say(words)}</span></label>
<div class="tick-more">${shownBy && html`<p>${voice.ui('shown-by')} ${voice.say(shownBy)}</p>`}
${ifMissed && html`<p><b>${voice.ui('if-missed')}</b> ${voice.say(ifMissed)}</p>`}
${throughout && html`<p>${voice.ui('throughout')}</p>`}
${first.length > 0 && html`<p>${voice.ui('given-by', { procedures: html`${first.map((link, i) => html`${i > 0 && ', '}${link}`)}` })}</p>`}</div></li>
`;
}

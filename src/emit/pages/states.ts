// States of machine and people in words: conditions, the strip of what is known at a step, places.

import type { ResolvedCondition, ResolvedVariable, World } from '../../model/resolved.js';
import type { StateSet, StepFacts } from '../../order/result.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';

/** `Engine: off or low idle`, the value emphasised. */
export function sayCondition(condition: ResolvedCondition, world: World, voice: Voice): Html {
  const variable = variableOf(world, condition.state);
  return html`${voice.say(variable?.label)} <b>${sayTest(condition, variable, voice)}</b>`;
}

/** The same as plain text, for short lines: `Engine off`. */
export function plainCondition(condition: ResolvedCondition, world: World, voice: Voice): string {
  const variable = variableOf(world, condition.state);
  return `${voice.plain(variable?.label)} ${sayTest(condition, variable, voice)}`;
}

function sayTest({ test }: ResolvedCondition, variable: ResolvedVariable | undefined, voice: Voice): string {
  if (test.kind === 'limits') return voice.number(test.text);
  if (test.kind === 'unknown') return '?';
  return test.words.map((word) => valueWords(variable, word, voice)).join(` ${voice.text('or')} `);
}

function valueWords(variable: ResolvedVariable | undefined, value: string, voice: Voice): string {
  const label = variable?.valueLabels.get(value);
  return label ? voice.plain(label) : voice.number(value);
}

/** Where a person stands: `beside the machine`. */
export function sayPlace(place: string, world: World, voice: Voice): string {
  return valueWords(variableOf(world, 'person'), place, voice);
}

function variableOf(world: World, state: string): ResolvedVariable | undefined {
  return world.variables.find(({ id }) => id === state);
}

/** The states worth a place in the strips of a page: those that safety rules look at, and those that change on the way. */
export function strippedStates(facts: Iterable<StepFacts>, world: World): ReadonlySet<string> {
  const seen = new Map<string, Set<string>>();
  for (const { before } of facts) {
    for (const { state, values } of before) seen.set(state, (seen.get(state) ?? new Set()).add(values.join(' ')));
  }
  const ruled = new Set(
    world.rules.flatMap(({ when, must, unchanged }) => [...[...when, ...must].map(({ state }) => state), ...unchanged]),
  );
  return new Set([...seen].filter(([state, ways]) => ways.size > 1 || ruled.has(state)).map(([state]) => state));
}

export interface StripInput {
  readonly facts: StepFacts;
  /** The facts of the step shown before: what differs from it stands out. */
  readonly earlier?: StepFacts | undefined;
  readonly shown: ReadonlySet<string>;
}

/**
 * What is known of machine and people before a step, in the book's order of states: what changed since the step before
 * stands open, the whole is folded under it.
 */
export function drawStrip({ facts, earlier, shown }: StripInput, world: World, voice: Voice): Html | undefined {
  const states = world.variables
    .filter(({ id }) => shown.has(id))
    .flatMap((variable) => facts.before.filter(({ state }) => state === variable.id).map((set) => ({ variable, set })))
    .map(({ variable, set }) => {
      const words = set.values.map((value) => valueWords(variable, value, voice)).join(` ${voice.text('or')} `);
      const person = set.person !== undefined && set.person > 1 && ` ${set.person}`;
      return {
        words: html`${voice.say(variable.label)}${person} <b>${words}</b>`,
        fresh: earlier !== undefined && !sameIn(earlier, set),
      };
    });
  if (states.length === 0) return undefined;
  const fresh = states.filter((state) => state.fresh).map(({ words }) => html`<span>${words}</span>`);
  const all = states.map(({ words }, i) => html`${i > 0 && ' · '}${words}`);
  return html`<details class="strip"><summary>${fresh.length > 0 ? fresh : voice.ui('state-now')}</summary><p>${all}</p></details>
`;
}

function sameIn({ before }: StepFacts, { state, person, values }: StateSet): boolean {
  return before.some(
    (other) => other.state === state && other.person === person && other.values.join(' ') === values.join(' '),
  );
}

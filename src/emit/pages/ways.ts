// Branches in plain words: where a reading, an answer or a failed expectation leads, how often, and what then.

import type { End, ResolvedBranch, ResolvedProcedure, ResolvedStep, World } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import { stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import { sayCondition } from './states.js';

/** The steps of one procedure on a page, and how to speak of them. */
export interface Scope {
  readonly procedure: ResolvedProcedure;
  /** What stands before its numbers: `4` for what step 4 runs, `E` for what an end runs, nothing at the top. */
  readonly prefix: string;
  readonly voice: Voice;
  readonly world: World;
  readonly phone: Html;
  /** For a procedure that is run: where its `done` leads. */
  readonly afterwards?: Html;
  /** What ends run, by end: the label of its first step. Missing inside these steps themselves. */
  readonly endSteps: ReadonlyMap<End, string>;
}

/** The anchor of a step on its page. */
export function stepAnchor(label: string): string {
  return `step-${label.replaceAll('.', '-')}`;
}

/** `step 7`, as a link to it. */
export function stepLink(label: string, voice: Voice): Html {
  return html`<a href="#${stepAnchor(label)}">${voice.text('step-link', { label }).replaceAll(' ', '\u00a0')}</a>`;
}

/** `go to step 7, at most 3 times, then call service, 555-0134`. */
export function sayBranch(branch: ResolvedBranch, scope: Scope): Html {
  const { voice, world } = scope;
  const means = branch.means.map((condition, i) => html`${i > 0 && ', '}${sayCondition(condition, world, voice)}`);
  const seen = means.length > 0 && html` ${voice.ui('means-seen', { states: html`${means}` })}`;
  const go = html`${sayTarget(branch.go, scope)}${seen}`;
  if (branch.atMost === undefined) return go;
  const times = branch.atMost === 1 ? voice.ui('at-most-once') : voice.ui('at-most', { count: branch.atMost });
  const after = branch.otherwise && html`, ${voice.ui('then-after', { go: sayBranch(branch.otherwise, scope) })}`;
  return html`${go}, ${times}${after}`;
}

/** Where a step id or an end leads. */
export function sayTarget(go: string, scope: Scope): Html {
  const { voice } = scope;
  const step = scope.procedure.steps.find(({ id }) => id === go);
  if (step) return voice.ui('go-step', { step: stepLink(stepLabel(step, scope.prefix), voice) });
  if (go === 'done') return scope.afterwards ? voice.ui('return-then', { go: scope.afterwards }) : voice.ui('go-done');
  const end = go === 'stop' ? voice.ui('go-stop') : voice.ui('go-call', { phone: scope.phone });
  const safe = scope.endSteps.get(go === 'stop' ? 'stop' : 'call-service');
  return safe === undefined ? end : voice.ui('first-safe', { step: stepLink(safe, voice), go: end });
}

/** What comes when a step has nothing against going on: its `then`, the next step, or the end. */
export function sayNext(step: ResolvedStep, scope: Scope): Html {
  if (step.then) return sayBranch(step.then, scope);
  const next = scope.procedure.steps[scope.procedure.steps.indexOf(step) + 1];
  if (!next) return sayTarget('done', scope);
  return scope.voice.ui('go-next', { step: stepLink(stepLabel(next, scope.prefix), scope.voice) });
}

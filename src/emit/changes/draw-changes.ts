// What changed, as a part of a page: each change a row, what is gone struck out.

import type { Change, Weight } from '../../model/comparison.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';
import { changeWord } from '../words/changes.js';
import { type Audience, sayChange } from './say-change.js';

/** Changes by weight, each weight under its word. */
export function drawChanges(changes: readonly Change[], voice: Voice): Html {
  const groups = (['safety', 'technical', 'text'] as const).flatMap((weight: Weight) => {
    const own = changes.filter((change) => change.weight === weight);
    return own.length === 0
      ? []
      : [
          html`<div class="weight ${weight}"><p class="weight-word">${changeWord(voice.language, weight)}</p>
${drawRows(own, voice)}</div>
`,
        ];
  });
  return html`${groups}`;
}

/** Changes as a list of rows; without an audience for the desk. */
export function drawRows(changes: readonly Change[], voice: Voice, audience?: Audience): Html {
  return html`<ul class="changed">${changes.map((change) => drawChange(change, voice, audience))}</ul>`;
}

/** Longer than this, what was and what is stand on lines of their own. */
const mostInLine = 60;

function drawChange(change: Change, voice: Voice, audience: Audience | undefined): Html {
  const { head, how, rigs, before, after, note } = sayChange(change, voice, audience);
  return html`<li><p><b>${head}</b>${how !== '' && html` <i>${how}</i>`}${rigs !== '' && html` <span class="rigs">${rigs}</span>`}</p>
${drawBoth(before ?? '', after ?? '', voice)}${note !== undefined && html`<p class="aside">${note}</p>`}</li>
`;
}

function drawBoth(before: string, after: string, { language }: Voice): Html | undefined {
  const [old, now] = [html`<del>${before}</del>`, html`<ins>${after}</ins>`];
  if (before === '' && after === '') return undefined;
  if (before === '' || after === '') return html`<p>${before === '' ? now : old}</p>`;
  if (before.length + after.length <= mostInLine) return html`<p>${old} <span aria-hidden="true">→</span> ${now}</p>`;
  const [was, is] = [changeWord(language, 'was'), changeWord(language, 'now')];
  return html`<p><span class="side">${was}</span> ${old}</p><p><span class="side">${is}</span> ${now}</p>`;
}

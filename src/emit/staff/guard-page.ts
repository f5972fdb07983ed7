// The page about slips, `staff/guard.html`: how many were noticed, by kind and by file, and those that nothing notices.
// Draws a result; tries nothing.

import type { GuardCount, GuardResult, Survivor } from '../../model/guard-result.js';
import { type Html, html } from '../html.js';
import type { Page } from '../pages/context.js';
import { guardWord } from '../words/guard.js';
import { staffPage } from './staff-page.js';

/** Where it stands, below the folder of the language. */
export const guardPath = 'staff/guard.html';

/** The page, in the language of `page`. */
export function guardPage(page: Page, result: GuardResult): string {
  const { total, possible, sample } = result;
  const tried = sample
    ? say(page, 'sample', { size: Math.min(sample.size, possible), possible })
    : say(page, 'all', { possible });
  return staffPage(page, {
    title: say(page, 'title'),
    why: say(page, 'why'),
    body: html`<p><b>${say(page, 'figure', { ...total })}</b></p>
<p>${tried} ${say(page, 'apart', { ...total })}</p>
${drawCounts(page, 'kinds', result.kinds)}${drawCounts(page, 'files', result.files)}${drawSurvivors(page, result.survivors)}`,
  });
}

function say({ voice }: Page, key: string, parts?: Readonly<Record<string, string | number>>): string {
  return guardWord(voice.language, key, parts);
}

function drawCounts(page: Page, key: 'kinds' | 'files', counts: readonly GuardCount[]): Html {
  const title = say(page, key);
  const head = [title, say(page, 'noticed'), say(page, 'counted'), say(page, 'percent')];
  const rows = counts.map(
    ({
      of,
      noticed,
      counted,
      percent,
    }) => html`<tr><th scope="row">${say(page, of)}</th><td>${noticed}</td><td>${counted}</td><td>${percent.toFixed(1)}</td></tr>
`,
  );
  return html`<section><h2>${title}</h2>
<div class="scroll" tabindex="0" role="group" aria-label="${title}"><table>
<thead><tr>${head.map((cell) => html`<th scope="col">${cell}</th>`)}</tr></thead>
<tbody>${rows}</tbody></table></div></section>
`;
}

function drawSurvivors(page: Page, survivors: readonly Survivor[]): Html {
  const title = html`<h2>${say(page, 'survivors')}</h2>`;
  if (survivors.length === 0) return html`<section>${title}<p>${say(page, 'survivors-none')}</p></section>`;
  const files = [...new Set(survivors.map(({ file }) => file))];
  const groups = files.map((file) => {
    const own = survivors.filter((survivor) => survivor.file === file);
    return html`<details><summary>${file}: ${own.length}</summary>
<ul class="rows">${own.map((survivor) => drawSurvivor(page, survivor))}</ul></details>
`;
  });
  return html`<section>${title}<p>${say(page, 'survivors-why')}</p>
${groups}</section>
`;
}

function drawSurvivor(page: Page, { line, path, before, after, kind, suggestion }: Survivor): Html {
  const change =
    after === ''
      ? html`<code>${before}</code> ${say(page, 'left-out')}`
      : html`<code>${before}</code> → <code>${after}</code>`;
  return html`<li><span class="wide">${say(page, 'line', { line })}, ${path}: ${change} <span class="aside">${say(page, kind)}</span><br><span class="aside" lang="en">${suggestion}</span></span></li>
`;
}

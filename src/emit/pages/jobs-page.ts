// The page of jobs on this phone. It holds nothing itself: what is kept on the phone is drawn by the client script.

import { html } from '../html.js';
import { linkTo, type Page } from './context.js';
import { renderPage } from './layout.js';

/** The name of its file in each language's folder. */
export const jobsFile = 'jobs.html';

/** The file of the page. */
export function jobsPage(page: Page): string {
  const { voice } = page;
  return renderPage(page, {
    kind: 'jobs',
    title: voice.text('jobs-title'),
    part: 'jobs',
    head: html`<h1>${voice.ui('jobs-title')}</h1><p class="summary">${voice.ui('jobs-why')}</p>`,
    body: html`<div id="jobs"><p>${voice.ui('jobs-wait')}</p></div>
<noscript><p>${voice.ui('jobs-no-script')}</p></noscript>`,
  });
}

/** A link to it, in the page's language. */
export function jobsLink(page: Page): string {
  return linkTo(page, jobsFile);
}

// What a page says once a phone finds that it may no longer hold: withdrawn since, revised since, not checked for long.
// All of it stands hidden in the page in its own words; the client script shows what is so and fills in the numbers.

import type { ResolvedProcedure } from '../../model/resolved.js';
import { type Html, html, type Part } from '../html.js';
import type { UiKey } from '../words/interface.js';
import { linkTo, type Page, phoneLink } from './context.js';
import type { Home } from './site-map.js';

/** The manifest of a language, in its folder. */
export const manifestName = 'site.webmanifest';

/** Days without a look online after which a page says so, where the book sets none. */
const usualDays = 14;

export interface Judged {
  readonly procedure: ResolvedProcedure;
  /** Whether it meets a hazard that can kill. */
  readonly isDeadly: boolean;
}

/** A folder whose pages a phone keeps as one set. */
export type Kept = Pick<Home, 'folder'>;

/** A place that the client script fills. */
export function gap(name: string): Html {
  return html`<span data-fill="${name}"></span>`;
}

/** The notes of a page that is kept with a home or a group of them, or that is about one procedure. */
export function drawStanding(page: Page, judged: Judged | undefined, home: Kept | undefined): Html {
  const { voice, site } = page;
  const phone = phoneLink(page);
  const days = site.book.book.settings.staleAfterDays?.value ?? usualDays;
  const note = (name: string, key: UiKey, parts: Readonly<Record<string, Part>> = {}): Html =>
    html`<p data-say="${name}" hidden>${voice.ui(key, parts)}</p>
`;
  const stop = (name: string, title: UiKey, text: UiKey): Html =>
    html`<div class="stop" data-say="${name}" hidden><p><b>${voice.ui(title)}</b></p><p>${voice.ui(text, { phone })}</p></div>
`;
  const where = home && html`<a href="${linkTo(page, home.folder)}#keep">${voice.ui('revised-where')}</a>`;
  const revised =
    judged &&
    where &&
    note('revised', 'revised', { revision: gap('revision'), own: judged.procedure.revision, home: where });
  const call =
    judged?.isDeadly &&
    html`<p class="call-first" data-say="call" hidden><b>${voice.ui('call-first', { phone })}</b></p>
`;
  return html`<section class="standing" id="standing" role="alert" data-days="${days}" hidden>
${judged && stop('withdrawn', 'withdrawn-title', 'withdrawn-text')}${judged && stop('gone', 'gone-title', 'gone-text')}${revised}${where && note('changed-page', 'changed-page', { home: where })}${note('stale', 'stale', { days: gap('days') })}${note('clock', 'clock')}${call}</section>
`;
}

/** Whether a page, as it is in the output, has the note that asks to call first: its work can kill. */
export function canAskToCall(page: string | Uint8Array | undefined): boolean {
  return typeof page === 'string' && page.includes('<p class="call-first" data-say="call"');
}

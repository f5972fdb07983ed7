// The walk-through of a page: the file it runs on, and what the page tells the phone of it.

import { writePortable } from '../../calc/portable.js';
import { isSameForAll } from '../book-text.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';
import { walkFile } from '../walk/walk-file.js';
import { linkTo, linkToAsset, linkToShared, type Page, plainOf } from './context.js';
import { findHazard } from './hazards.js';
import type { Version } from './site-map.js';
import { factsOf } from './step-facts.js';

/** The path of the file below the site; homes whose pages say the same share it. */
export function walkPath({ site, voice, home }: Page, { variant }: Version): string {
  const hazards = [...site.book.book.hazards.values()];
  const isSame = hazards.every(({ what, harm, avoid }) => [what, harm, avoid].every(isSameForAll));
  const own = isSame ? '' : `-${(home?.folder ?? '').replaceAll('/', '-').replace(/-$/, '')}`;
  return `walk/${variant.hash.slice(0, 16)}${own}.${voice.language}.json`;
}

/** The file itself. */
export function walkText(page: Page, { variant }: Version): string {
  const facts = factsOf(page, variant);
  const listed = variant.procedure.hazards;
  const met = [...facts.values()].flatMap(({ hazards }) => hazards);
  const settings = page.site.book.book.settings;
  return writePortable(
    walkFile(variant, {
      voice: page.voice,
      phone: settings.phone.value,
      owner: plainOf(page, settings.owner),
      hazards: [...new Set([...listed, ...met])].map((id) => findHazard(page, id)),
      hazardsAt: (label) => facts.get(label)?.hazards ?? [],
    }),
  );
}

/** What the phone needs to know of the walk, as attributes of the body; nothing of what was withdrawn. */
export function walkFacts(page: Page, version: Version): Readonly<Record<`data-${string}`, string>> {
  if (version.variant.procedure.status === 'withdrawn') return {};
  return {
    'data-walk': linkToShared(page, walkPath(page, version)),
    'data-walk-style': linkToAsset(page, 'walk.css'),
    'data-jobs': linkTo(page, 'jobs.html'),
    'data-state-now': page.voice.text('state-now'),
  };
}

/** Where the phone offers to start; empty without a script. */
export function drawOffer(status: string, voice: Voice): Html | undefined {
  if (status === 'withdrawn') return undefined;
  return html`<section class="walk-start" id="walk-start" hidden data-start="${voice.text('walk-start')}" data-why="${voice.text('walk-why')}" data-practice="${voice.text('walk-practice')}" data-desk="${voice.text('walk-desk', { label: '#' })}" data-desk-why="${voice.text('walk-desk-why')}" data-broken="${voice.text('walk-broken')}"></section>
`;
}

// What a phone needs to keep the book: the manifest, the page for what it has not kept, and the part of a home that keeps it.

import { type Html, html } from '../html.js';
import { cardPart, listName } from '../offline/shapes.js';
import type { UiKey } from '../words/interface.js';
import { fileOf, languageFolder, linkTo, type Page, phoneLink, plainOf, relativeLink } from './context.js';
import { renderPage } from './layout.js';
import { gap, type Kept, manifestName } from './standing.js';

export { manifestName };

const icons = [
  { name: 'icons/192.png', sizes: '192x192', purpose: 'any' },
  { name: 'icons/512.png', sizes: '512x512', purpose: 'any' },
  { name: 'icons/512-maskable.png', sizes: '512x512', purpose: 'maskable' },
] as const;

/** The manifest of a language: the book as something that stands on the home screen and opens without an address bar. */
export function manifestFile(page: Page): string {
  const { voice, site } = page;
  const title = plainOf(page, site.book.book.settings.title);
  const root = relativeLink(fileOf(page), '');
  const drawn = icons.flatMap(({ name, ...rest }) => {
    const path = site.assets.get(name);
    return path === undefined ? [] : [{ src: root === './' ? path : root + path, type: 'image/png', ...rest }];
  });
  const manifest = {
    id: root,
    name: title,
    short_name: title.length <= 12 ? title : voice.text('short-name'),
    lang: voice.language,
    start_url: './',
    scope: root,
    display: 'standalone',
    background_color: '#f5f3ee',
    theme_color: '#5a2a5c',
    icons: drawn,
  };
  return `${JSON.stringify(manifest, null, 1)}\n`;
}

/** For an address that the phone has not kept, while there is no signal. */
export function notKeptPage(page: Page): string {
  const { voice } = page;
  return renderPage(page, {
    kind: 'lost',
    title: voice.text('not-kept'),
    head: html`<h1>${voice.ui('not-kept')}</h1>`,
    body: html`<div class="stop" id="${cardPart}"><p><b>${voice.ui('not-kept-card', { phone: phoneLink(page) })}</b></p></div>
<p>${voice.ui('not-kept-why')}</p>
${drawKeptList(page)}<p><a class="button" href="${linkTo(page, '')}">${voice.ui('choose-machine')}</a></p>
<p>${voice.ui('not-kept-call', { phone: phoneLink(page) })}</p>
<section class="install"><p data-install="words">${voice.ui('keep-how-screen')}</p>
${drawInstall(page)}</section>`,
  });
}

/** Where the browser is asked to put the book on the home screen. Hidden until it can be, and where it was opened from there. */
function drawInstall({ voice }: Page): Html {
  return html`<div role="status"><p data-install="done" hidden>${voice.ui('install-done')}</p></div>
<p data-install="ask" hidden>${voice.ui('install-why')}</p>
<button class="press" type="button" data-install="ask" hidden>${voice.ui('install-do')}</button>
`;
}

/** The machines that are kept on this phone; the client script fills it. */
export function drawKeptList({ voice }: Page): Html {
  return html`<section class="kept-list" id="kept" data-since="${voice.text('kept-since-short', { since: '#' })}" hidden><h2>${voice.ui('keep-title')}</h2>
<ul class="choices"></ul></section>
`;
}

/**
 * Where a home, or what holds for rigs that are not told apart, is kept on the phone, updated and removed. Hidden without the
 * client script, which shows one state of it.
 */
export function drawKeep(page: Page, kept: Kept): Html {
  const { voice, site } = page;
  const size = gap('size');
  const say = (name: string, key: UiKey, parts: Readonly<Record<string, Html>> = {}): Html =>
    html`<p data-say="${name}" hidden>${voice.ui(key, parts)}</p>
`;
  const button = (act: string, key: UiKey, parts: Readonly<Record<string, Html>> = {}): Html =>
    html`<button class="press" type="button" data-do="${act}" hidden>${voice.ui(key, parts)}</button>
`;
  const folder = languageFolder(site, voice.language) + kept.folder;
  const [offer, keep] = page.home ? (['keep-offer', 'keep-do'] as const) : (['keep-offer-any', 'keep-do-any'] as const);
  return html`<section class="keep" id="keep" data-folder="${folder}" data-list="${listName}" hidden><h2>${voice.ui('keep-title')}</h2>
<div class="told" role="status">
${say('kept', 'kept-since', { since: gap('since') })}${say('offer', offer)}${say('changed', 'keep-changed')}${say('job', 'keep-job')}${say('open-job', 'keep-open-job')}${say('busy', 'keep-busy', { done: gap('done'), size: gap('all') })}</div>
<progress max="100" value="0" aria-label="${voice.text('keep-title')}" hidden></progress>
<div class="told" role="alert">
${say('refused', 'keep-refused')}${say('insecure', 'keep-insecure')}${say('full', 'keep-full', { size })}${say('away', 'keep-away-from-net')}${say('mixed', 'keep-mixed')}${say('halted', 'keep-halted')}${say('evicted', 'keep-evicted')}${say('torn', 'keep-torn')}${say('other', 'keep-other')}</div>
${button('keep', keep, { size })}${button('update', 'keep-update', { size })}${button('cancel', 'keep-cancel')}<details data-say="how" hidden><summary>${voice.ui('keep-how')}</summary>
<div class="promise">${say('promised', 'keep-promised')}${say('unpromised', 'keep-unpromised')}</div><ul class="how">
<li data-install="words">${voice.ui('keep-how-screen')}</li>
<li>${voice.ui('keep-how-open')}</li>
<li>${voice.ui('keep-how-space')}</li>
<li>${voice.ui('keep-how-card')}</li>
</ul>
${button('remove', 'keep-remove')}</details>
${drawInstall(page)}</section>
`;
}

// The frame that every page stands in: head, way back to the machine, language, safety notice. No inline script or style.

import { type Html, html, trusted } from '../html.js';
import { languageName } from '../words/interface.js';
import {
  fileOf,
  homeName,
  languageFolder,
  linkTo,
  linkToAsset,
  linkToShared,
  type Page,
  phoneLink,
  plainOf,
  relativeLink,
} from './context.js';
import { takenWords } from './listed.js';
import { drawHomeLine } from './rig-line.js';
import { drawStanding, type Judged, type Kept, manifestName } from './standing.js';

export interface Frame {
  readonly title: string;
  /** What stands in the head of the page below the way back; holds the h1. */
  readonly head: Html;
  readonly body: Html;
  /** A word for the style sheet: `home`, `procedure`. */
  readonly kind: string;
  /** What the client script needs to know, as attributes of the body. */
  readonly facts?: Readonly<Record<`data-${string}`, string>>;
  /** The procedure that the page is of, for what a phone says when it no longer holds. */
  readonly judged?: Judged;
  /** Where a new version of the page can be taken, on a page without a home. */
  readonly kept?: Kept;
  /** Where the way back leads on a page without a home. */
  readonly rig?: { readonly words: string; readonly folder: string };
  /** A page to leave: the machine's home is not offered as a way back. */
  readonly isHome?: boolean;
  /** The script and the style sheet that it has beside those of all pages: `jobs` for assets/jobs.js and assets/jobs.css. */
  readonly part?: string;
  /** A style sheet that it has beside that of all pages: `changes` for assets/changes.css. */
  readonly sheet?: string;
}

const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** The whole file of a page. */
export function renderPage(page: Page, frame: Frame): string {
  const { voice } = page;
  const { home } = page;
  const kept = home ?? frame.kept;
  const own = home && { 'data-home': home.folder, 'data-name': homeName(page, home) };
  // a procedure comes over a weak signal without what only lists need
  const lists = /^procedure/.test(frame.kind) ? undefined : takenWords(voice);
  const facts = Object.entries({ 'data-root': linkToShared(page, ''), ...own, ...lists, ...frame.facts }).map(
    ([name, value]) => html` ${trusted(name)}="${value}"`,
  );
  return html`<!DOCTYPE html>
<html lang="${voice.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1, interactive-widget=resizes-content">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${frame.title} · ${plainOf(page, page.site.book.book.settings.title)}</title>
${alternates(page)}<link rel="icon" href="${linkToAsset(page, 'icon.svg')}" type="image/svg+xml">
${touchIcon(page)}<link rel="manifest" href="${linkTo(page, manifestName)}">
${faces(page)}${lists && drawSheet(page, 'listing')}${drawSheet(page, 'style')}<script type="module" src="${linkToAsset(page, 'client.js')}"></script>
${frame.part !== undefined && drawPart(page, frame.part)}${frame.sheet !== undefined && drawSheet(page, frame.sheet)}</head>
<body class="${frame.kind}"${facts}>
<a class="skip" href="#main">${voice.ui('skip')}</a>
<header class="top">
${wayBack(page, frame)}
${home && otherMachines(page)}${frame.head}
${home && !/^procedure/.test(frame.kind) && drawHomeLine(page)}</header>
<main id="main">
${(kept || frame.judged) && drawStanding(page, frame.judged, kept)}${frame.body}
</main>
${foot(page)}
</body>
</html>
`.html;
}

// asked for at once: a face that comes after the first drawing is not taken any more, so that nothing moves under a thumb
function faces(page: Page): readonly Html[] {
  return [...page.site.assets.keys()]
    .filter((name) => name.endsWith('.woff2'))
    .map(
      (name) => html`<link rel="preload" href="${linkToAsset(page, name)}" as="font" type="font/woff2" crossorigin>
`,
    );
}

function drawPart(page: Page, part: string): Html {
  return html`${drawSheet(page, part)}<script type="module" src="${linkToAsset(page, `${part}.js`)}"></script>
`;
}

function drawSheet(page: Page, sheet: string): Html {
  return html`<link rel="stylesheet" href="${linkToAsset(page, `${sheet}.css`)}">
`;
}

function touchIcon(page: Page): Html | undefined {
  if (!page.site.assets.has('icons/180.png')) return undefined;
  return html`<link rel="apple-touch-icon" href="${linkToAsset(page, 'icons/180.png')}">
`;
}

function alternates(page: Page): readonly Html[] {
  if (page.site.languages.length < 2) return [];
  return page.site.languages.map(
    (language) =>
      html`<link rel="alternate" hreflang="${language}" href="${toLanguage(page, language)}">
`,
  );
}

function toLanguage(page: Page, language: string): string {
  const path = languageFolder(page.site, language) + page.path;
  return relativeLink(fileOf(page), path.replace(/(^|\/)index\.html$/, '$1'));
}

function wayBack(page: Page, frame: Frame): Html {
  const { home, voice } = page;
  const owner = html`<span class="owner">${plainOf(page, page.site.book.book.settings.owner)}</span>`;
  const rig =
    home && !frame.isHome
      ? html`<a class="rig" href="${linkTo(page, home.folder)}">${homeName(page, home)}</a>`
      : frame.rig
        ? html`<a class="rig" href="${linkTo(page, frame.rig.folder)}">${frame.rig.words}</a>`
        : frame.kind === 'start'
          ? owner
          : html`<a class="rig" href="${linkTo(page, '')}">${owner}</a>`;
  const change = home && !frame.isHome && html` <a class="change" href="${linkTo(page, '')}">${voice.ui('change')}</a>`;
  return html`<nav class="way" aria-label="${voice.ui('start')}">${rig}${change}${frame.kind === 'start' && languageLinks(page)}</nav>`;
}

// other machines that this phone remembers: the client script fills it
function otherMachines(page: Page): Html {
  const { voice } = page;
  return html`<nav id="machines" class="machines" aria-label="${voice.ui('machines-title')}" data-words="${voice.text('machines-switch')}" data-start="${linkTo(page, '')}" hidden></nav>
`;
}

function languageLinks(page: Page): readonly Html[] {
  return page.site.languages
    .filter((language) => language !== page.voice.language)
    .map((language) => {
      const name = languageName(language);
      return html`<a hreflang="${language}" lang="${language}" href="${toLanguage(page, language)}">${name}</a>`;
    });
}

function foot(page: Page): Html {
  const { settings } = page.site.book.book;
  return html`<footer class="foot">
<p>${page.voice.ui('notice', { phone: phoneLink(page) })}</p>
${page.site.languages.length > 1 && html`<p class="languages">${languageLinks(page)}</p>`}
<p class="owner">${plainOf(page, settings.title)} · ${plainOf(page, settings.owner)}</p>
</footer>`;
}

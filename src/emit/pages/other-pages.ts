// The list of codes for the telephone, and the page for an address that leads nowhere.

import { type Html, html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { codedPages } from './code-page.js';
import { cardFolder, homeName, linkTo, type Page, plainOf } from './context.js';
import { renderPage } from './layout.js';
import { about, drawTaken } from './listed.js';

/** Every code with its page; the client script finds one as it is typed. */
export function codesPage(page: Page): string {
  const { voice, site } = page;
  const sections = site.map.homes.map((home) => {
    const rows = home.entries.flatMap(({ procedure, versions }) =>
      versions.map(
        ({
          code,
          folder,
        }) => html`<li id="${code}"${about(procedure)}><b class="code">${spokenCode(code)}</b><span class="wide"><a href="${linkTo(page, folder)}">${voice.say(procedure.title)}</a> <span class="aside">${voice.ui('revision', { revision: procedure.revision })}</span>${drawTaken(procedure, voice)}</span></li>
`,
      ),
    );
    return rows.length === 0
      ? undefined
      : html`<section class="job"><h2>${homeName(page, home)}</h2><ul class="rows">
${rows}</ul></section>
`;
  });
  return renderPage(page, {
    kind: 'codes',
    title: voice.text('codes-title'),
    head: html`<h1>${voice.ui('codes-title')}</h1><p class="summary">${voice.ui('codes-why')}</p>`,
    body: html`<form class="search" id="find-code" hidden data-unknown="${voice.text('codes-unknown')}">
<label for="code">${voice.ui('codes-field')}</label>
<div class="field-row"><input id="code" name="code" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false" enterkeyhint="go" maxlength="24" aria-describedby="code-step"><button class="button" type="submit">${voice.ui('codes-go')}</button></div>
<p class="aside" id="code-step">${voice.ui('codes-step')}</p>
<p class="status" role="status"></p>
</form>
${sections}${otherRows(page)}${cardRows(page)}`,
  });
}

/** The codes of lists, of choices, and of pages for rigs that are not told apart. */
function otherRows(page: Page): Html {
  const { voice, site } = page;
  const own = new Set(
    site.map.homes.flatMap((home) => home.entries.flatMap(({ versions }) => versions.map(({ code }) => code))),
  );
  const rows = codedPages(page)
    .filter(({ code }) => !own.has(code))
    .map(
      ({
        code,
        folder,
        title,
      }) => html`<li id="${code}"><b class="code">${spokenCode(code)}</b><span class="wide"><a href="${linkTo(page, folder)}">${title}</a></span></li>
`,
    );
  return html`<section class="job"><h2>${voice.ui('codes-others')}</h2><ul class="rows">
${rows}</ul></section>
`;
}

/** The codes on the feet of cards. */
function cardRows(page: Page): Html {
  const { voice, site } = page;
  const cards = [...site.cards.byCode.values()].flatMap(([card]) => card ?? []);
  if (cards.length === 0) return html``;
  const rows = cards.map((card) => {
    const title = site.map.places.get(card.variant)?.[0]?.version.variant.procedure.title;
    const machine = plainOf(page, site.book.book.machines.get(card.machine)?.name);
    return html`<li id="${card.code}"><b class="code">${spokenCode(card.code)}</b><span class="wide"><a href="${linkTo(page, cardFolder(card.code))}">${voice.say(title)}</a> <span class="aside">${machine}</span></span></li>
`;
  });
  return html`<section class="job"><h2>${voice.ui('card-title')}</h2><ul class="rows">
${rows}</ul></section>
`;
}

/** For an address that leads nowhere. It may be shown at any depth: its links start at the path of the book's address. */
export function notFoundPage(page: Page): string {
  const { voice, site } = page;
  const base = basePath(site.book.book.settings.url.value);
  const file = renderPage(page, {
    kind: 'lost',
    title: voice.text('not-found'),
    head: html`<h1>${voice.ui('not-found')}</h1>`,
    body: html`<p>${voice.ui('not-found-why')}</p><p><a class="button" href="./">${voice.ui('choose-machine')}</a></p>
<p>${plainOf(page, site.book.book.settings.owner)}</p>`,
  });
  return file.replaceAll(/ (href|src|data-root)="(?![a-z]+:|#)(?:\.\/)?([^"]*)"/g, ` $1="${base}$2"`);
}

/** The path of an address, with `/` at both ends; `/` where it cannot be read. */
function basePath(url: string): string {
  const path = /^[a-z]+:\/\/[^/?#]*([^?#]*)/i.exec(url)?.[1] ?? '/';
  return /[^\w\-./~%]/.test(path) ? '/' : `${path.replace(/\/?$/, '/').replace(/^(?!\/)/, '/')}`;
}

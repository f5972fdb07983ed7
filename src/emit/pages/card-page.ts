// Where the printed code of a card leads: the pages of that card as the book has it now, and whether the card still holds.

import { html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { homeName, linkTo, linkToShared, type Page, phoneLink } from './context.js';
import { renderPage } from './layout.js';

/** The page of a card. Its address carries the printed revision behind `#`; the client script compares it with today's. */
export function cardPage(page: Page, code: string): string {
  const { voice, site } = page;
  const cards = site.cards.byCode.get(code) ?? [];
  const card = cards.find(({ language }) => language === voice.language) ?? cards[0];
  const places = (site.map.places.get(card?.variant ?? '') ?? []).filter(
    ({ home }) => home.machine.id === card?.machine,
  );
  const [first] = places;
  if (!card || !first) throw new Error(`There is no card ${code}`);
  const { procedure } = first.version.variant;
  const { id, title, revision } = procedure;
  return renderPage(page, {
    kind: 'card',
    title: `${voice.plain(title)} · ${voice.text('card-title')}`,
    head: html`<h1>${voice.say(title)}</h1><p class="summary">${voice.ui('card-is', { code: html`<b class="code">${spokenCode(code)}</b>` })}</p>`,
    facts: { 'data-procedure': id, 'data-revision': String(revision) },
    // what can kill is said on the page of the procedure, which comes next
    judged: { procedure, isDeadly: false },
    kept: first.home,
    body: html`<p class="card-revision">${voice.ui('card-revision', { revision: html`<b>${revision}</b>` })}</p>
<p class="card-old" role="alert" hidden>${voice.ui('card-old', { phone: phoneLink(page) })}</p>
<ul class="rows">
${places.map(
  ({ home, version }) => html`<li><a href="${linkTo(page, version.folder)}">${homeName(page, home)}</a></li>
`,
)}</ul>
<p><a href="${linkToShared(page, card.path)}">${voice.ui('card-print')}</a></p>`,
  });
}

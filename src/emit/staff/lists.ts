// Waived warnings and the words of a book, as lists.

import { html } from '../html.js';
import type { Page } from '../pages/context.js';
import { drawTable, say, staffPage } from './staff-page.js';

/** Every waiver with its reason. */
export function waiversPage(page: Page): string {
  const { book } = page.site.book;
  const all = [...book.waivers, ...[...book.procedures.values()].flatMap(({ waivers }) => waivers)];
  const rows = all.map(
    ({ code, because, at }) =>
      html`<li><span class="wide"><b>${code.value}</b> <span class="aside">${say(page, 'in-file', { file: at.file })}</span></span><span class="wide">${because.value}</span></li>
`,
  );
  return staffPage(page, {
    title: say(page, 'waivers'),
    why: say(page, 'waivers-why'),
    body: rows.length === 0 ? html`<p>${say(page, 'waivers-none')}</p>` : html`<ul class="rows">${rows}</ul>`,
  });
}

/** The words of terms.yaml. */
export function termsPage(page: Page): string {
  const { site } = page;
  const { terms } = site.book.book;
  const head = [...site.languages, say(page, 'terms-also'), say(page, 'terms-never')];
  const rows = terms.map(({ use, also, never }) => [
    ...site.languages.map((language) => html`${use.get(language)?.value}`),
    html`${also.map(({ value }) => value).join(', ')}`,
    html`${never.map(({ value }) => value).join(', ')}`,
  ]);
  return staffPage(page, {
    title: say(page, 'terms'),
    why: say(page, 'terms-why'),
    body: terms.length === 0 ? html`<p>${say(page, 'terms-none')}</p>` : drawTable(say(page, 'terms'), head, rows),
  });
}

// Where the code of a page leads: `c/abc123/#step-7` opens that step of that page. The client script goes on by itself.

import { html } from '../html.js';
import { spokenCode } from '../short-code.js';
import { groupName } from './any-page.js';
import { commonTitle } from './common-page.js';
import { homeName, linkTo, type Page } from './context.js';
import { renderPage } from './layout.js';

/** A page that a code stands for. */
export interface CodedPage {
  readonly code: string;
  readonly folder: string;
  /** What the link to it says. */
  readonly title: string;
}

/** Everything that has a code but cards: procedures, choices between versions, homes, and pages for rigs not told apart. */
export function codedPages(page: Page): readonly CodedPage[] {
  const { voice, site } = page;
  const homes = site.map.homes.flatMap((home): readonly CodedPage[] => {
    const name = homeName(page, home);
    const entries = home.entries.flatMap(({ procedure, folder, code, versions, common }) => {
      const title = `${voice.plain(procedure.title)} · ${name}`;
      return [
        ...versions.map((version) => ({ code: version.code, folder: version.folder, title })),
        ...(versions.length > 1 ? [{ code, folder, title }] : []),
        ...(common ? [{ code: common.code, folder: common.folder, title }] : []),
      ];
    });
    return [{ code: home.code, folder: home.folder, title: name }, ...entries];
  });
  const groups = site.map.groups.flatMap((group): readonly CodedPage[] => {
    const name = groupName(page, group);
    const entries = group.entries.map((entry) => ({
      code: entry.code,
      folder: entry.folder,
      title: `${commonTitle(entry, voice)} · ${name}`,
    }));
    return [{ code: group.code, folder: group.folder, title: name }, ...entries];
  });
  return [...homes, ...groups];
}

/** The file of the address of a code. */
export function codePage(page: Page, { code, folder, title }: CodedPage): string {
  const { voice } = page;
  return renderPage(page, {
    kind: 'code-address',
    title: spokenCode(code),
    head: html`<h1 class="code">${spokenCode(code)}</h1><p class="summary">${voice.ui('code-page')}</p>`,
    facts: { 'data-go': linkTo(page, folder) },
    body: html`<ul class="choices"><li><a href="${linkTo(page, folder)}">${title}</a></li></ul>`,
  });
}

// Every rule explained: the pages that the rules bring along, for the browser. They are written in English.

import { type Html, html } from '../html.js';
import { blockMarkdown } from '../markdown.js';
import { linkTo, linkToShared, type Page } from '../pages/context.js';
import { say, staffFolder, staffPage } from './staff-page.js';

/** A rule as the program brings it: its code, how it counts, and its page in markdown. */
export interface RuleText {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'hint';
  readonly markdown: string;
}

/** The folder of a rule's page. */
export function ruleFolder(code: string): string {
  return `${staffFolder}rules/${code}/`;
}

/** The list of all. */
export function rulesStart(page: Page, rules: readonly RuleText[]): string {
  const groups = (['error', 'warning', 'hint'] as const).map((severity) => {
    const own = rules.filter((rule) => rule.severity === severity);
    return html`<section class="job"><h2>${say(page, severity)} (${own.length})</h2><ul class="entries">${own.map(
      (rule) =>
        html`<li><a href="${linkToShared(page, ruleFolder(rule.code))}"><b>${rule.code}</b><span class="aside" lang="en">${firstSentence(rule.markdown)}</span></a></li>
`,
    )}</ul></section>`;
  });
  return staffPage(page, { title: say(page, 'rules'), why: say(page, 'rules-why'), body: html`${groups}` });
}

/** One rule, in the first language's folder alone: its words are English. */
export function rulePage(every: Page, { code, severity, markdown }: RuleText): string {
  const page: Page = { ...every, site: { ...every.site, languages: every.site.languages.slice(0, 1) } };
  const body = markdown.replace(/^# .*\n+/, '');
  return staffPage(page, {
    title: code,
    why: say(page, severity),
    body: html`<section class="prose rule" lang="en">${drawMarkdown(page, body)}</section>`,
  });
}

function drawMarkdown(page: Page, markdown: string): Html {
  const links = {
    link: (target: string) => (/^[\w-]+\.md$/.test(target) ? linkTo(page, ruleFolder(target.slice(0, -3))) : undefined),
    figure: () => undefined,
  };
  return blockMarkdown(markdown, { level: 1, links });
}

function firstSentence(markdown: string): string {
  const what = markdown.split(/^## What\n+/m)[1] ?? '';
  return (/^[\s\S]*?\.(?=\s|$)/.exec(what)?.[0] ?? '').replaceAll(/\s+/g, ' ').replaceAll('`', '');
}

// `stepgauge explain CODE`: what a diagnostic means, with a bad and a good example. The page is the rule's own.

import { nearestNames } from '../diagnostic/nearest.js';
import { catalogue } from '../rules/catalogue.js';
import { Misuse } from './misuse.js';
import { packageTexts } from './package-files.js';
import type { Terminal } from './terminal.js';

/** Prints the page of a code; without a code, the list of all. */
export function runExplain(code: string | undefined, terminal: Terminal): number {
  const pages = packageTexts('dist/rule-pages');
  if (code === undefined) {
    const width = Math.max(...[...catalogue.keys()].map((key) => key.length));
    for (const [key, severity] of [...catalogue].sort(([a], [b]) => (a < b ? -1 : 1))) {
      terminal.out(`${key.padEnd(width)}  ${severity.padEnd(7)}  ${firstSentence(pages.get(`${key}.md`))}\n`);
    }
    return 0;
  }
  const page = pages.get(`${code}.md`);
  if (page === undefined) {
    const near = nearestNames(code, [...catalogue.keys()]);
    const guess = near.length > 0 ? `; did you mean ${near.map((name) => `\`${name}\``).join(' or ')}?` : '';
    throw new Misuse(`No diagnostic has the code \`${code}\`${guess}`);
  }
  terminal.out(page.endsWith('\n') ? page : `${page}\n`);
  return 0;
}

/** Up to the first full stop that ends something: `book.yaml` holds one that does not. */
function firstSentence(page: string | undefined): string {
  const what = page?.split(/^## What\n+/m)[1] ?? '';
  return (/^[\s\S]*?\.(?=\s|$)/.exec(what)?.[0] ?? '').replace(/\s+/g, ' ');
}

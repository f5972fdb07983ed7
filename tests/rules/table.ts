// The table of src/rules/README.md: every code with its group and its sources, and what standards ask of a procedure with
// whatever keeps it. Written from the pages of the rules and from src/rules/asked.json; nothing in it is typed.

import { dirname } from 'node:path';
import type { Page } from './page.js';

export interface Asked {
  readonly groups: readonly string[];
  /** By folder of src/rules/. */
  readonly families: Readonly<Record<string, string>>;
  /** By code, where it belongs to another group than its folder. */
  readonly apart: Readonly<Record<string, string>>;
  readonly asked: readonly {
    readonly asks: string;
    readonly source: string;
    readonly codes: readonly string[];
    /** Tests that hold what no code can say. */
    readonly kept: readonly string[];
  }[];
}

const none = 'common practice, no source';

/** Names of standards and handbooks as pages cite them. */
const cited =
  /\b(?:\d+ CFR [\d.]+(?:\([a-z0-9]+\))*(?:\([iv]+\))?|ANSI\/NCSL Z[\d.]+|ANSI Z[\d.]+|ASD-STE\d+|ASTM E\d+|AS\/NZS \d+|CommonMark|DOE-STD-\d+|ECMA-\d+|GUM|HSE|IEC\/IEEE [\d-]+|IEC \d[\d-]*|IEEE \d+|ILAC-G8|ISO\/IEC \d[\d-]*|ISO\/TS \d[\d-]*|ISO \d[\d-]*|JCGM \d+|JSON Schema|NASA CR-\d+|NIST SP \d+|NIST\/SEMATECH e-Handbook|OASIS DITA|OSHA|POSIX|RFC \d+|S1000D|SI brochure|UCUM|Unicode|USDA|VIM|WCAG|WHATWG|YAML 1\.2|Hoare|Iglewicz and Hoaglin|Rice)\b/g;

/** The sources that a page names under Why. */
export function sourcesOf({ markdown }: Page): readonly string[] {
  const why = /^## Why\n([\s\S]*?)^## /m.exec(markdown)?.[1] ?? '';
  return [...new Set([...why.replaceAll(/\s+/g, ' ').matchAll(cited)].map(([name]) => name))];
}

/** The group of a page's code; undefined where its folder has none. */
export function groupOf(page: Page, { families, apart }: Asked): string | undefined {
  return apart[page.id] ?? families[dirname(page.file).split(/[\\/]/).at(-1) ?? ''];
}

/** The whole file. `severities` has every code. */
export function writeTable(pages: readonly Page[], asked: Asked, severities: ReadonlyMap<string, string>): string {
  const linked = new Map(pages.map((page) => [page.id, `[\`${page.id}\`](${linkTo(page)})`]));
  const rows = asked.groups.flatMap((group, index) =>
    pages
      .filter((page) => groupOf(page, asked) === group)
      .sort((a, b) => (a.id < b.id ? -1 : 1))
      .map((page) => {
        const sources = sourcesOf(page);
        const cells = [
          linked.get(page.id),
          severities.get(page.id),
          `${index + 1} ${group}`,
          sources.join(', ') || none,
        ];
        return `| ${cells.join(' | ')} |`;
      }),
  );
  const wants = asked.asked.map(({ asks, source, codes, kept }, index) => {
    const by = [...codes.map((code) => linked.get(code) ?? code), ...kept.map((test) => `\`${test}\``)];
    return `| ${index + 1} | ${asks} | ${source} | ${by.join(', ')} |`;
  });
  return [
    '# Every rule, its group and its source',
    '',
    'Written by `npm run update` from the pages of the rules and from `asked.json`; not typed. A source is what the page of',
    `the rule cites under *Why*; where it cites none, the rule is ${none}. Sources marked *(from memory)* were not at hand.`,
    '',
    `${pages.length} codes. Shown by \`stepgauge explain CODE\`: what each means, why, and bad and good examples.`,
    '',
    '| code | severity | group | source |',
    '|---|---|---|---|',
    ...rows,
    '',
    '## What standards and handbooks ask of a procedure, and what keeps it',
    '',
    '| | asked | source | kept by |',
    '|---|---|---|---|',
    ...wants,
    '',
  ].join('\n');
}

function linkTo({ file }: Page): string {
  return file.split(/[\\/]/).slice(-2).join('/');
}

// Every rule's page is its test: each Bad gives exactly one diagnostic of that rule, each Good none of any.
// `npm run update` rewrites the rendered diagnostics on the pages; the difference is reviewed as behaviour. Needs `npm run build` before.

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeChecker } from '../../src/compile.js';
import { collectDiagnostics } from '../../src/diagnostic/collect.js';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { renderText } from '../../src/diagnostic/text.js';
import { openFonts } from '../../src/emit/cards/fonts.js';
import { catalogue } from '../../src/rules/catalogue.js';
import { rules } from '../../src/rules/index.js';
import type { SourceFile } from '../../src/text/source.js';
import { readFromDisk, tellsCapitalsApart } from './disk.js';
import { bookOf, type Example, filesOf, type Page, pagesBelow } from './page.js';

const root = join(import.meta.dirname, '../..');
const base = filesOf(join(root, 'tests/books/base'));
const pages = pagesBelow(join(root, 'src/rules'));
const updating = process.env.UPDATE_PAGES === '1';

/** Whether cards fit is asked on the pages of cards alone: elsewhere it would only take time. */
const cardsFamily = join('src', 'rules', 'cards');
const face = (weight: number): Uint8Array =>
  readFileSync(join(root, `dist/card-fonts/b612-latin-${weight}-normal.ttf`));
const fonts = openFonts(face(400), face(700));

/** Faults of files before anybody reads their words: their examples are real files. */
const fileFamily = join('src', 'rules', 'files');

// one book that changes from example to example: what an example leaves alone is not checked again
const checkAgain = makeChecker();

interface Read {
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly figures: ReadonlySet<string>;
  readonly unreadable?: ReadonlySet<string>;
  readonly diagnostics: readonly Diagnostic[];
}

function readExample(example: Example, file: string): Read {
  const files = bookOf(base, example);
  if (file.includes(fileFamily)) {
    const read = readFromDisk(files, example);
    const figures = new Set(read.figures.keys());
    return { sources: read.files, figures, unreadable: read.unread, diagnostics: read.diagnostics };
  }
  const figures = new Set([...files.keys()].filter((path) => path.startsWith('figures/')));
  const texts = [...files].filter(([path]) => !figures.has(path));
  return { sources: new Map(texts.map(([path, text]) => [path, { path, text }])), figures, diagnostics: [] };
}

function check(example: Example, page?: Page): { diagnostics: readonly Diagnostic[]; rendered: string } {
  const { diagnostics: before, ...read } = readExample(example, page?.file ?? '');
  const { sources } = read;
  const checked = checkAgain({
    ...read,
    ...(page?.file.includes(cardsFamily) ? { fonts } : {}),
    today: '2026-11-24',
    ...(example.rig === undefined ? {} : { rig: example.rig }),
  });
  const diagnostics = collectDiagnostics([...before, ...checked.diagnostics]);
  // A hint counts on its own page alone.
  const counted = diagnostics.filter(({ severity, code }) => severity !== 'hint' || code === page?.id);
  return { diagnostics: counted, rendered: renderText(counted, sources, { color: false }) };
}

function rewrite(page: Page, example: Example, rendered: string): void {
  const text = rendered.trimEnd();
  const from = page.markdown.indexOf(`### ${example.title}\n`);
  const next = page.markdown.slice(from + 4).search(/^#{2,3} /m);
  const to = next < 0 ? page.markdown.length : from + 4 + next;
  const part = page.markdown.slice(from, to);
  const without = part.replace(/^```text\n[\s\S]*?^```\n*/gm, '').trimEnd();
  const changed = `${without}\n\n\`\`\`text\n${text}\n\`\`\`\n\n`;
  writeFileSync(page.file, page.markdown.slice(0, from) + changed + page.markdown.slice(to));
  Object.assign(page, { markdown: page.markdown.slice(0, from) + changed + page.markdown.slice(to) });
}

describe('the base book', () => {
  it('is clean', () => {
    expect(check({ title: '', changes: [] }).diagnostics).toEqual([]);
  });
});

describe('the catalogue', () => {
  it('has every rule of the list and a page for each code, and no page without a code', () => {
    const codes = [...catalogue.keys()].sort();
    expect(rules.map(({ id }) => id).filter((id) => !catalogue.has(id))).toEqual([]);
    expect(pages.map(({ id }) => id).sort()).toEqual(codes);
  });
});

for (const page of pages) {
  describe(page.id, () => {
    it('has the file name, the headings and enough examples', () => {
      expect(page.file.endsWith(`/${page.id}.md`)).toBe(true);
      expect(page.headings).toEqual(['What', 'Why', 'Bad', 'Good', 'Limits of this rule']);
      expect(page.bad.length).toBeGreaterThanOrEqual(2);
      expect(page.good.length).toBeGreaterThanOrEqual(2);
    });
    const canShow = page.id !== 'name-differs-in-case' || tellsCapitalsApart();
    for (const example of page.bad) {
      it.skipIf(!canShow)(`reports: ${example.title}`, () => {
        const { diagnostics, rendered } = check(example, page);
        const ofThis = diagnostics.filter(({ code }) => code === page.id);
        if (updating && ofThis.length === 1) rewrite(page, example, rendered);
        expect(diagnostics.map(({ code }) => code)).toEqual([page.id]);
        expect(catalogue.get(page.id)).toBe(ofThis[0]?.severity);
        if (!updating) expect(rendered.trimEnd()).toBe(example.rendered?.trimEnd());
      });
    }
    for (const example of page.good) {
      it(`accepts: ${example.title}`, () => {
        expect(check(example, page).diagnostics).toEqual([]);
      });
    }
  });
}

// `stepgauge build`: check, then the site, its search, the cards and the open book. Errors leave the old output as it was.

import { buildBook } from '../build.js';
import type { RuleText } from '../emit/staff/rule-pages.js';
import { writeFolder } from '../io.js';
import type { GuardResult } from '../model/guard-result.js';
import { catalogue } from '../rules/catalogue.js';
import { guardInParts } from './guard-parts.js';
import { type Loaded, loadBook, report } from './load.js';
import { releasesOf } from './open-release.js';
import { type CheckOptions, todayOf } from './options.js';
import { packageFiles, packageTexts } from './package-files.js';
import type { Terminal } from './terminal.js';

export interface BuildOptions extends CheckOptions {
  readonly out: string;
  /** Whether drafts get pages and cards too, marked so. */
  readonly drafts: boolean;
  /** Whether the slips of the book are tried, for a page about them. */
  readonly guard: boolean;
}

/** Gives the exit code: 0 built, 1 errors found and nothing written. */
export async function runBuild(book: string | undefined, options: BuildOptions, terminal: Terminal): Promise<number> {
  const loaded = loadBook(book, options);
  report(loaded, options, terminal);
  if (!loaded.holds) {
    terminal.err('Nothing was built.\n');
    return 1;
  }
  const task = { folder: loaded.folder, today: todayOf(options.today) };
  const guard = options.guard ? await guardInParts(task, terminal) : undefined;
  const files = filesOf(loaded, options.drafts, guard);
  writeFolder(options.out, files);
  terminal.err(`${files.size} files are in ${options.out}\n`);
  return 0;
}

/** The rules' own pages, in the order of their codes. */
function ruleTexts(): readonly RuleText[] {
  const pages = packageTexts('dist/rule-pages');
  return [...catalogue]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([code, severity]) => {
      const markdown = pages.get(`${code}.md`);
      return markdown === undefined ? [] : [{ code, severity, markdown }];
    });
}

/** Every file of the output, for a book that holds. */
export function filesOf(
  loaded: Loaded,
  drafts: boolean,
  guard?: GuardResult,
): ReadonlyMap<string, string | Uint8Array> {
  const { resolved, proofs } = loaded.checked;
  if (!resolved) throw new Error('A book that holds was not worked out');
  return buildBook({
    resolved,
    proofs,
    figures: loaded.figures,
    assets: packageFiles('dist/site'),
    fonts: loaded.fonts,
    drafts,
    rules: ruleTexts(),
    releases: releasesOf(loaded.folder),
    ...(guard ? { guard } : {}),
  });
}

// `stepgauge export`: check, then one procedure as single files that need neither site nor signal: for a stick or a mail.

import { nearestNames } from '../diagnostic/nearest.js';
import { exportPages, type Wanted } from '../emit/offline/export-pages.js';
import { writeFolder } from '../io.js';
import type { Book } from '../model/book.js';
import { resolveBook } from '../resolve/resolve.js';
import { readRig } from '../resolve/rig-text.js';
import { type Loaded, loadBook, report } from './load.js';
import { Misuse } from './misuse.js';
import type { CheckOptions } from './options.js';
import { packageFiles } from './package-files.js';
import type { Terminal } from './terminal.js';

export interface ExportOptions extends CheckOptions {
  readonly procedure: string;
  readonly out: string;
  /** One of the book's languages; all where it is missing. */
  readonly language?: string;
  readonly drafts: boolean;
}

/** Gives the exit code: 0 written, 1 errors found and nothing written. */
export function runExport(book: string | undefined, options: ExportOptions, terminal: Terminal): number {
  // the whole book is worked out also where one rig is asked for: a page keeps the code that it has on the site
  const { rig: _, ...whole } = options;
  const loaded = loadBook(book, whole);
  report(loaded, options, terminal);
  if (!loaded.holds) {
    terminal.err('Nothing was exported.\n');
    return 1;
  }
  const files = exportedFiles(loaded, options);
  writeFolder(options.out, files);
  terminal.err(`${files.size} ${files.size === 1 ? 'file is' : 'files are'} in ${options.out}\n`);
  return 0;
}

function exportedFiles({ checked, figures }: Loaded, options: ExportOptions): ReadonlyMap<string, string> {
  const { resolved, proofs } = checked;
  if (!resolved) throw new Error('A book that holds was not worked out');
  const { procedure, language, drafts } = options;
  const { procedures, settings } = resolved.book;
  const found = procedures.get(procedure);
  if (!found) throw new Misuse(unknown('procedure', procedure, [...procedures.keys()]));
  if (language !== undefined && !settings.languages.includes(language)) {
    throw new Misuse(unknown('language', language, settings.languages));
  }
  if (found.status.value === 'draft' && !drafts) {
    throw new Misuse(
      `\`${procedure}\` is a draft, and nobody has released it for work: add \`--drafts\` to export it all the same`,
    );
  }
  const assets = packageFiles('dist/site');
  const input = { proofs, figures, assets, drafts };
  const isWanted = options.rig === undefined ? () => true : pagesOfRig(resolved.book, options.rig);
  const files = exportPages(resolved, input, { procedure, isWanted, ...(language !== undefined && { language }) });
  if (files.size === 0) throw new Misuse(`There is no page of \`${procedure}\` for that rig and language`);
  return files;
}

/** Which pages are for a rig: those with the content that is worked out for it alone. */
function pagesOfRig(book: Book, text: string): Wanted['isWanted'] {
  const read = readRig(book, text);
  if (!read.ok) throw new Misuse(`${read.message}. ${read.help}`);
  const { variants } = resolveBook(book, { rig: text }).value;
  return ({ machine, header, content }) =>
    variants.some(
      ({ hash, rigs }) => hash === content && rigs.some((rig) => rig.machine === machine && rig.header === header),
    );
}

function unknown(kind: string, name: string, known: readonly string[]): string {
  const near = nearestNames(name, known);
  const guess = near.length > 0 ? `; did you mean ${near.map((one) => `\`${one}\``).join(' or ')}?` : '';
  return `The book has no ${kind} \`${name}\`${guess}`;
}

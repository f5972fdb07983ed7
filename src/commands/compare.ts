// `stepgauge compare`: what changed from one state of a book to another, by meaning. Each is a release, a book, or the data
// of a built site.

import { join } from 'node:path';
import { renderSummary, renderText } from '../diagnostic/text.js';
import { comparisonData, type Side } from '../emit/changes/comparison-data.js';
import { writeComparison } from '../emit/changes/comparison-text.js';
import { voiceFor } from '../emit/voice.js';
import { compareBooks } from '../history/compare.js';
import { releaseFormat } from '../history/release.js';
import { findBook, isFolder, readTextFile, readTexts, releasesFolder } from '../io.js';
import type { CompiledBook } from '../model/compiled-book.js';
import { loadBook } from './load.js';
import { Misuse } from './misuse.js';
import { checkShape, openRelease } from './open-release.js';
import { compiledOf } from './release.js';
import type { Terminal } from './terminal.js';

export interface CompareOptions {
  readonly format: 'text' | 'json';
  readonly strict: boolean;
  readonly today?: string;
}

interface Opened extends Side {
  readonly book: CompiledBook;
}

/** Gives the exit code: 0, also where nothing changed; 1 where a book has errors. */
export function runCompare(
  { before, after }: { readonly before: string; readonly after: string | undefined },
  options: CompareOptions,
  terminal: Terminal,
): number {
  const old = open(before, options, terminal);
  const now = open(after ?? nearestBook(), options, terminal);
  if (!old || !now) return 1;
  const comparison = compareBooks(old.book, now.book);
  if (options.format === 'json') {
    terminal.out(`${JSON.stringify(comparisonData(comparison, { before: old, after: now }), null, 2)}\n`);
    return 0;
  }
  const voice = voiceFor('en', now.book.languages[0] ?? 'en');
  terminal.out(writeComparison(comparison, `From ${say(old, voice.date)} to ${say(now, voice.date)}`, voice));
  return 0;
}

function say({ what, name, date }: Side, dated: (date: string) => string): string {
  if (what !== 'release') return `the book in ${name}`;
  return name === date ? `the release ${name}` : `the release ${name} (${dated(date ?? '')})`;
}

function nearestBook(): string {
  const folder = findBook();
  if (folder === undefined) throw new Misuse('No book here to compare with: name it, or another release');
  return folder;
}

/** What a word of the call stands for; undefined where it is a book with errors, which are printed. */
function open(word: string, options: CompareOptions, terminal: Terminal): Opened | undefined {
  const folder = isFolder(word);
  if (folder === false) return openFile(word);
  if (folder === true)
    return isFolder(join(word, 'book.yaml')) === undefined ? openBuilt(word) : openBook(word, options, terminal);
  const book = findBook();
  const path = join(book ?? '.', releasesFolder, `${word}.json`);
  if (book !== undefined && isFolder(path) === false) return openFile(path);
  throw new Misuse(unknown(word, book));
}

function openFile(path: string): Opened {
  const text = readTextFile(path);
  const format = /"format"\s*:\s*"([^"]*)"/.exec(text.slice(0, 200))?.[1];
  if (format === 'stepgauge-book') return { what: 'data', name: path, book: checkShape(path, parse(path, text)) };
  if (format !== releaseFormat) {
    throw new Misuse(
      `\`${path}\` is neither a release nor the data of a built site: name a file of \`releases/\`, a \`data/book.json\`, or the folder of a book`,
    );
  }
  const { name, date, sources, book } = openRelease(path, text);
  return { what: 'release', name, date, sources, book };
}

function parse(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Misuse(`\`${path}\` is no whole JSON: build the site again`);
  }
}

function openBuilt(folder: string): Opened {
  const path = join(folder, 'data', 'book.json');
  if (isFolder(path) === false) return openFile(path);
  throw new Misuse(
    `\`${folder}\` is no book: it has no \`book.yaml\`, and no \`data/book.json\` of a built site either`,
  );
}

function openBook(folder: string, options: CompareOptions, terminal: Terminal): Opened | undefined {
  const { strict, today } = options;
  const loaded = loadBook(folder, { format: 'text', strict, ...(today === undefined ? {} : { today }) });
  if (loaded.holds) return { what: 'book', name: folder, book: compiledOf(loaded) };
  const faults = loaded.diagnostics.filter(
    ({ severity }) => severity === 'error' || (strict && severity === 'warning'),
  );
  terminal.err(renderText(faults, loaded.sources, { color: terminal.color }));
  terminal.err(
    `${renderSummary(faults, { color: terminal.color })}\nNothing was compared: mend \`${folder}\` first.\n`,
  );
  return undefined;
}

function unknown(word: string, book: string | undefined): string {
  const known = book === undefined ? [] : [...readTexts(join(book, releasesFolder), '.json').keys()];
  const names = known.map((name) => `\`${name.replace(/\.json$/, '')}\``);
  const has =
    names.length > 0
      ? `the releases of \`${book}\` are ${names.join(', ')}`
      : book === undefined
        ? 'there is no book here whose release it could be'
        : `\`${book}\` has no releases: \`stepgauge release\` makes one`;
  return `\`${word}\` is no file, no folder and no release: ${has}`;
}

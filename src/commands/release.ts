// `stepgauge release`: check, then freeze the compiled book under a name. A release is never written over.

import { join } from 'node:path';
import { compileBook } from '../build.js';
import { digestSources, releaseName, writeRelease } from '../history/release.js';
import { isFolder, releasesFolder, writeNewFile } from '../io.js';
import { type Loaded, loadBook, report } from './load.js';
import { Misuse } from './misuse.js';
import { todayOf } from './options.js';
import type { Terminal } from './terminal.js';

export interface ReleaseOptions {
  readonly strict: boolean;
  /** The date where it is missing. */
  readonly name?: string;
  readonly today?: string;
}

/** Gives the exit code: 0 released, 1 errors found and nothing written. */
export function runRelease(book: string | undefined, options: ReleaseOptions, terminal: Terminal): number {
  const date = todayOf(options.today);
  const name = options.name ?? date;
  if (!releaseName.test(name)) {
    throw new Misuse(
      `Unexpected \`--name ${name}\`, expected small letters, digits, \`-\` and \`.\`, such as \`spring-2026\``,
    );
  }
  const loaded = loadBook(book, { format: 'text', strict: options.strict, today: date });
  const path = join(loaded.folder, releasesFolder, `${name}.json`);
  if (isFolder(path) !== undefined) {
    const other = options.name === undefined ? 'name this one with `--name`' : 'take another name';
    throw new Misuse(`\`${path}\` is there already, and a release is never written over: ${other}`);
  }
  report(loaded, { format: 'text', strict: options.strict }, terminal);
  if (!loaded.holds) {
    terminal.err('Nothing was released.\n');
    return 1;
  }
  const compiled = compiledOf(loaded);
  const sources = digestSources(loaded.sources, compiled.figures);
  writeNewFile(path, writeRelease({ name, date, sources, book: compiled }));
  const count = new Set(compiled.variants.map(({ procedure }) => procedure.id)).size;
  terminal.err(`Released ${count} ${count === 1 ? 'procedure' : 'procedures'} as ${path}\n`);
  return 0;
}

/** The compiled book of a folder that holds. */
export function compiledOf({ checked: { resolved }, figures }: Loaded): ReturnType<typeof compileBook> {
  if (!resolved) throw new Error('A book that holds was not worked out');
  return compileBook(resolved, figures);
}

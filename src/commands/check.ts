// `stepgauge check`: everything short of writing.

import { loadBook, report } from './load.js';
import type { CheckOptions } from './options.js';
import type { Terminal } from './terminal.js';

/** Gives the exit code: 0 clean, 1 errors found. */
export function runCheck(book: string | undefined, options: CheckOptions, terminal: Terminal): number {
  const loaded = loadBook(book, options);
  report(loaded, options, terminal, true);
  return loaded.holds ? 0 : 1;
}

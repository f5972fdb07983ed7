// From a book on disk to a checked book: what check, build, serve and cards all begin with.

import { type Checked, type CheckInput, holds, makeChecker } from '../compile.js';
import { collectDiagnostics } from '../diagnostic/collect.js';
import type { Diagnostic } from '../diagnostic/diagnostic.js';
import { renderJson } from '../diagnostic/json.js';
import { renderSarif } from '../diagnostic/sarif.js';
import { renderSummary, renderText } from '../diagnostic/text.js';
import { type CardFonts, cardFonts } from '../emit/cards/fonts.js';
import { findBook, readBookFolder } from '../io.js';
import { catalogue } from '../rules/catalogue.js';
import type { SourceFile } from '../text/source.js';
import { Misuse } from './misuse.js';
import { type CheckOptions, todayOf } from './options.js';
import { packageFiles } from './package-files.js';
import type { Terminal } from './terminal.js';

export interface Loaded {
  readonly checked: Checked;
  /** What was checked, and with what: it may be checked again with changes. */
  readonly input: CheckInput;
  readonly check: Check;
  /** The faces that cards were measured in, and are drawn in. */
  readonly fonts: CardFonts;
  /** Everything to report, in order: what was wrong with the folder, and with the book. */
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: ReadonlyMap<string, SourceFile>;
  /** Figures by their path in the book. */
  readonly figures: ReadonlyMap<string, Uint8Array>;
  readonly folder: string;
  /** Whether it may be built. */
  readonly holds: boolean;
}

/** Reads and checks the book at a path, or the nearest one. Throws `Misuse` where there is none. */
export type Load = (path: string | undefined, options: CheckOptions) => Loaded;

/** Loads a book once. */
export const loadBook: Load = (path, options) => makeLoader()(path, options);

/** What a book is checked with. */
export type Check = ReturnType<typeof makeChecker>;

/** Loads a book again and again while it changes: what has not changed is not checked again. */
export function makeLoader(): Load {
  const fonts = cardFonts(packageFiles('dist/card-fonts'));
  const check = makeChecker();
  return (path, options) => load({ path, options, fonts, check });
}

interface Loading {
  readonly path: string | undefined;
  readonly options: CheckOptions;
  readonly fonts: CardFonts;
  readonly check: Check;
}

/** The folder of a book as it was read, and where it is. */
export type OpenedFolder = ReturnType<typeof readBookFolder> & { readonly folder: string };

/** Reads the folder at a path, or of the nearest book. Throws `Misuse` where there is none. */
export function openFolder(path: string | undefined): OpenedFolder {
  const folder = path ?? findBook();
  if (folder === undefined) {
    throw new Misuse(
      'No book here: no folder from this one upward has a `book.yaml`, and there is no `procedures/`. Name the book, or begin one with `stepgauge new book ID`.',
    );
  }
  const read = readBookFolder(folder);
  if (read.missing !== undefined) throw new Misuse(read.missing);
  return { ...read, folder };
}

function load({ path, options, fonts, check }: Loading): Loaded {
  const read = openFolder(path);
  const input = {
    sources: read.files,
    figures: new Set(read.figures.keys()),
    unreadable: read.unread,
    today: todayOf(options.today),
    fonts,
    ...(options.rig === undefined ? {} : { rig: options.rig }),
  };
  const checked = check(input);
  const diagnostics = collectDiagnostics([...read.diagnostics, ...checked.diagnostics]);
  return {
    checked,
    input,
    check,
    fonts,
    diagnostics,
    sources: read.files,
    figures: read.figures,
    folder: read.folder,
    holds: mayPass(diagnostics, options),
  };
}

function mayPass(diagnostics: readonly Diagnostic[], options: CheckOptions): boolean {
  const most = mostWarnings(options);
  const warnings = diagnostics.filter(({ severity }) => severity === 'warning').length;
  return holds(diagnostics, options.strict) && warnings <= most;
}

function mostWarnings({ maxWarnings }: CheckOptions): number {
  if (maxWarnings === undefined) return Number.POSITIVE_INFINITY;
  if (!/^\d+$/.test(maxWarnings))
    throw new Misuse(`Unexpected \`--max-warnings ${maxWarnings}\`, expected a whole number`);
  return Number(maxWarnings);
}

/** Prints what was found, in the format asked for, and a one-line summary after text; hints are for `check` alone. */
export function report(loaded: Loaded, options: CheckOptions, terminal: Terminal, hints = false): void {
  const all = chosen(options.waived ? loaded.checked.waived : loaded.diagnostics, options.only);
  const shown = hints || options.format !== 'text' ? all : all.filter(({ severity }) => severity !== 'hint');
  if (options.format === 'json') terminal.out(`${JSON.stringify(renderJson(shown, loaded.sources), null, 2)}\n`);
  else if (options.format === 'sarif') {
    terminal.out(`${JSON.stringify(renderSarif(shown, loaded.sources, catalogue), null, 2)}\n`);
  } else {
    terminal.out(renderText(shown, loaded.sources, { color: terminal.color }));
    terminal.out(`${summaryOf(loaded, options, all, terminal)}\n`);
  }
}

/** What is shown, and with a part of it also all that counts: the exit code follows all. */
function summaryOf(
  { diagnostics }: Loaded,
  { only, waived }: CheckOptions,
  shown: readonly Diagnostic[],
  { color }: Terminal,
): string {
  const all = renderSummary(diagnostics, { color });
  const count = `${shown.length === 0 ? 'no' : shown.length} ${shown.length === 1 ? 'warning' : 'warnings'} waived`;
  if (waived) return `${count}; besides these ${all}`;
  return only === undefined ? all : `${shown.length === 0 ? 'none' : shown.length} of \`${only}\`; in all ${all}`;
}

function chosen(diagnostics: readonly Diagnostic[], only: string | undefined): readonly Diagnostic[] {
  if (only === undefined) return diagnostics;
  if (!catalogue.has(only))
    throw new Misuse(`No diagnostic has the code \`${only}\`: \`stepgauge explain\` lists them all`);
  return diagnostics.filter(({ code }) => code === only);
}

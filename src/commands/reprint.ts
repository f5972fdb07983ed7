// `stepgauge reprint`: which issued cards are out of date, for whom, and because of which change.

import { reprintBook } from '../build.js';
import { nearestNames } from '../diagnostic/nearest.js';
import { renderSummary, renderText } from '../diagnostic/text.js';
import { reprintData } from '../emit/changes/reprint-data.js';
import { writeReprint } from '../emit/changes/reprint-text.js';
import { voiceFor } from '../emit/voice.js';
import type { Reprint } from '../model/reprint.js';
import { outOfDateStates } from '../model/reprint.js';
import { type Loaded, loadBook } from './load.js';
import { Misuse } from './misuse.js';
import { releasesOf } from './open-release.js';
import type { Terminal } from './terminal.js';

export interface ReprintOptions {
  readonly format: 'text' | 'json';
  readonly unit?: string;
  readonly strict: boolean;
  readonly today?: string;
}

/** Gives the exit code: 0 where every issued card still holds, 1 where one does not or the book has errors. */
export function runReprint(path: string | undefined, options: ReprintOptions, terminal: Terminal): number {
  const { format, strict, today } = options;
  const loaded = loadBook(path, { format: 'text', strict, ...(today === undefined ? {} : { today }) });
  if (!loaded.holds) {
    sayFaults(loaded, strict, terminal);
    return 1;
  }
  const reprint = forUnit(reprintIn(loaded), loaded, options.unit);
  const { settings, fleet } = bookOf(loaded).book;
  const [first = 'en', ...others] = settings.languages;
  if (format === 'json') terminal.out(`${JSON.stringify(reprintData(reprint, [first, ...others]), null, 2)}\n`);
  else {
    const customer = (unit: string): string | undefined => fleet.find(({ id }) => id.value === unit)?.customer?.value;
    terminal.out(writeReprint(reprint, voiceFor('en', first), customer));
  }
  return reprint.outOfDate > 0 ? 1 : 0;
}

/** The register of a book that holds against what the book would print. */
function reprintIn(loaded: Loaded): Reprint {
  const resolved = bookOf(loaded);
  const { checked, figures, folder } = loaded;
  return reprintBook({ resolved, proofs: checked.proofs, figures, releases: releasesOf(folder) });
}

function bookOf({ checked: { resolved } }: Loaded): NonNullable<Loaded['checked']['resolved']> {
  if (!resolved) throw new Error('A book that holds was not worked out');
  return resolved;
}

function sayFaults({ diagnostics, sources, folder }: Loaded, strict: boolean, terminal: Terminal): void {
  const faults = diagnostics.filter(({ severity }) => severity === 'error' || (strict && severity === 'warning'));
  terminal.err(renderText(faults, sources, { color: terminal.color }));
  terminal.err(
    `${renderSummary(faults, { color: terminal.color })}\nNo card was looked at: mend \`${folder}\` first.\n`,
  );
}

/** The cards of one unit. Throws `Misuse` for one that neither the fleet nor the register has. */
function forUnit(reprint: Reprint, loaded: Loaded, unit: string | undefined): Reprint {
  if (unit === undefined) return reprint;
  const { fleet, issued } = bookOf(loaded).book;
  const known = [...fleet.map(({ id }) => id.value), ...issued.flatMap((card) => card.unit?.value ?? [])];
  if (!known.includes(unit)) {
    const near = nearestNames(unit, known).map((one) => `\`${one}\``);
    const guess = near.length > 0 ? `; did you mean ${near.join(' or ')}?` : '';
    throw new Misuse(`Neither the fleet nor the register has the unit \`${unit}\`${guess}`);
  }
  const cards = reprint.cards.filter((card) => card.unit === unit);
  return { cards, outOfDate: cards.filter(({ state }) => outOfDateStates.includes(state)).length };
}

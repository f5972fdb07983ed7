// An instrument that is described wrongly, or suits none of the values read with it: the fault is one, and is the instrument's.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book, Instrument } from '../../model/book.js';
import { leavesOf } from '../../model/walk.js';
import { joinTo } from './followers.js';
import { ownersIn, type ValueOwner } from './owners.js';

/** What is said of a value because of what it is read with. */
const ofReading: ReadonlySet<string> = new Set([
  'limits-outside-instrument',
  'acceptance-empty',
  'instrument-not-good-enough',
  'resolution-too-coarse',
]);

/** What is said of an adjuster whose window is as wide as the reading lets it be. */
const ofTurning: ReadonlySet<string> = new Set([
  'adjuster-cannot-help',
  'adjuster-step-over-window',
  'adjuster-reach-short',
]);

/** What is said of an instrument whose numbers do not fit each other. */
const ofItself: ReadonlySet<string> = new Set(['counts-do-not-fit', 'accuracy-finer-than-resolution']);

/**
 * Joins what is said of values because of one instrument to what is said of that instrument; where nothing is, and each value
 * that is read with it has something said, to the first of these.
 */
export function joinInstruments(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const readers = valuesByInstrument(book);
  const causes = new Map<Diagnostic, Diagnostic>();
  for (const instrument of book.instruments.values()) {
    const group = groupOf(diagnostics, { book, instrument, readers: readers.get(instrument.id) ?? new Set() });
    // an error is never joined to less
    const first = group.find(({ severity }) => severity === 'error') ?? group[0];
    for (const one of group) if (first && one !== first && !causes.has(one)) causes.set(one, first);
  }
  return causes.size === 0 ? diagnostics : joinTo(diagnostics, (one) => causes.get(one));
}

interface Reading {
  readonly book: Book;
  readonly instrument: Instrument;
  /** Values with limits that are read with it. */
  readonly readers: ReadonlySet<string>;
}

/** All that one instrument is the reason of, what is said of itself first; nothing where that is not sure. */
function groupOf(diagnostics: readonly Diagnostic[], reading: Reading): readonly Diagnostic[] {
  const { book, instrument, readers } = reading;
  const own = diagnostics.filter(({ code, at }) => ofItself.has(code) && isWithin(at, instrument));
  const told = diagnostics
    .filter(({ code }) => ofReading.has(code) || ofTurning.has(code))
    .flatMap((diagnostic) => {
      const owner = ownersIn(book, diagnostic.at);
      return owner && isReadSo(diagnostic, owner, readers) ? [{ diagnostic, owner }] : [];
    });
  const said = new Set(told.flatMap(({ owner }) => owner.ids.map((id) => keyOf(owner, id))));
  const isWhole = readers.size > 1 && [...readers].every((key) => said.has(key));
  if (own.length === 0 && !isWhole) return [];
  const isAboutValue = ({ diagnostic }: (typeof told)[number]): boolean =>
    own.length > 0 || !ofTurning.has(diagnostic.code);
  return [...own, ...told.filter(isAboutValue).map(({ diagnostic }) => diagnostic)];
}

function isWithin({ file, start }: Diagnostic['at'], { at }: Instrument): boolean {
  return file === at.file && at.start <= start && start < at.end;
}

/** Whether the value, or what it is worked out from or moves, is read with the instrument. */
function isReadSo({ code }: Diagnostic, owner: ValueOwner, readers: ReadonlySet<string>): boolean {
  const inputs = code === 'acceptance-empty' || ofTurning.has(code) ? owner.inputs : [];
  return [...owner.ids, ...inputs].some((id) => readers.has(keyOf(owner, id)));
}

function keyOf({ procedure }: ValueOwner, id: string): string {
  return `${procedure.id} ${id}`;
}

function valuesByInstrument(book: Book): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  for (const { id: procedure, values } of book.procedures.values()) {
    for (const { id, readWith, limits } of values) {
      if (!limits) continue;
      for (const { value } of readWith ? leavesOf(readWith) : []) {
        found.set(value, (found.get(value) ?? new Set()).add(`${procedure} ${id}`));
      }
    }
  }
  return found;
}

// An instrument that suits none of the values read with it: the fault is one, and is most likely the instrument's.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import { leavesOf } from '../../model/walk.js';
import { withFollowers } from './followers.js';
import { ownersIn } from './owners.js';

const codes: readonly string[] = [
  'limits-outside-instrument',
  'acceptance-empty',
  'instrument-not-good-enough',
  'resolution-too-coarse',
];

/** Joins what is said of every value that is read with one instrument, where that is said of all of them. */
export function joinInstruments(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const readers = valuesByInstrument(book);
  const followers = new Map<Diagnostic, readonly Diagnostic[]>();
  const gone = new Set<Diagnostic>();
  for (const code of codes) {
    const told = diagnostics
      .filter((one) => one.code === code)
      .map((diagnostic) => ({ diagnostic, values: valuesAt(book, diagnostic) }));
    for (const values of readers.values()) {
      const own = told.filter((one) => one.values.some((value) => values.has(value)));
      const [first, ...others] = own.map(({ diagnostic }) => diagnostic);
      const said = new Set(own.flatMap((one) => one.values));
      if (!first || values.size < 2 || ![...values].every((value) => said.has(value))) continue;
      followers.set(first, others);
      for (const other of others) gone.add(other);
    }
  }
  return diagnostics.filter((one) => !gone.has(one)).map((one) => withFollowers(one, followers.get(one) ?? []));
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

function valuesAt(book: Book, { at }: Diagnostic): readonly string[] {
  const owner = ownersIn(book, at);
  return owner ? owner.values.map(({ id }) => `${owner.procedure.id} ${id}`) : [];
}

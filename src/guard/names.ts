// The names that a slip may put in the place of another: of the same kind, declared, and the most alike first.

import { compareText } from '../diagnostic/diagnostic.js';
import type { Book } from '../model/book.js';
import type { YamlNode } from '../read/tree.js';
import { entryOf } from '../read/tree.js';
import type { NameKind } from './roles.js';

/** All names of one file that others may be taken for, by kind. */
export type NamesOfKind = (kind: NameKind) => readonly string[];

const ends = ['done', 'stop', 'call-service'];

/** The names of the book, and of the file whose tree is `top`, as they are written there. */
export function namesFor(book: Book, top: YamlNode): NamesOfKind {
  const keysOf = (key: string): readonly string[] => {
    const found = entryOf(top, key)?.value;
    return found?.kind === 'map' ? found.entries.map((entry) => entry.key.text.value) : [];
  };
  const steps = (): readonly string[] => {
    const list = entryOf(top, 'steps')?.value;
    const items = list?.kind === 'list' ? list.items : [];
    return items.flatMap((item) => {
      const id = entryOf(item, 'id')?.value;
      return id?.kind === 'scalar' ? [id.text.value] : [];
    });
  };
  const names: Readonly<Record<NameKind, () => readonly string[]>> = {
    machine: () => [...book.machines.keys()],
    header: () => [...book.headers.keys()],
    'header-type': () => [...new Set([...book.headers.values()].map(({ type }) => type.value))],
    option: () => [...new Set([...book.machines.values()].flatMap(({ options }) => options.map(({ id }) => id)))],
    tool: () => [...book.tools.keys()],
    hazard: () => [...book.hazards.keys()],
    state: () => [...book.states.keys()],
    event: () => [...book.events.keys()],
    instrument: () => [...book.instruments.keys()],
    place: () => (book.states.get('person')?.values ?? []).map(({ id }) => id.value),
    procedure: () => [...book.procedures.keys()],
    quantity: () => [...new Set([...book.instruments.values()].map(({ quantity }) => quantity.value))],
    value: () => [...keysOf('values'), ...keysOf('worksheets')],
    adjuster: () => keysOf('adjusters'),
    step: () => [...steps(), ...ends],
    bundle: () => [...book.bundles.keys()],
  };
  const known = new Map<NameKind, readonly string[]>();
  return (kind) => {
    const found = known.get(kind) ?? names[kind]();
    known.set(kind, found);
    return found;
  };
}

/** The other names, the most alike first. */
export function alike(name: string, names: Iterable<string>): readonly string[] {
  return [...new Set(names)]
    .filter((other) => other !== name)
    .map((other) => ({ other, apart: apart(name, other) }))
    .sort((a, b) => a.apart - b.apart || compareText(a.other, b.other))
    .map(({ other }) => other);
}

/** Letters left out, put in or changed. */
function apart(a: string, b: string): number {
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const changed = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(changed, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    last = row;
  }
  return last[b.length] ?? 0;
}

// Every name that a book declares, by what it names: what names are held against, and where near ones are looked for.

import type { Book } from '../model/book.js';

/** The types of header that the format knows, whether or not the book has one. */
const headerTypes = ['row', 'platform', 'flex-platform', 'draper', 'flex-draper', 'pickup'] as const;

export interface Vocabulary {
  readonly machines: ReadonlySet<string>;
  readonly headers: ReadonlySet<string>;
  readonly headerTypes: ReadonlySet<string>;
  readonly options: ReadonlySet<string>;
  /** Software versions of all machines. */
  readonly versions: ReadonlySet<string>;
  readonly modules: ReadonlySet<string>;
  /** Names of parameters of any machine, and of any header. */
  readonly machineParameters: ReadonlySet<string>;
  readonly headerParameters: ReadonlySet<string>;
  readonly words: ReadonlySet<string>;
  /** Where a person may be: the values of the state `person`. */
  readonly places: ReadonlySet<string>;
  /** `crop.corn.mass`, `crop.corn.base_moisture`: by the path that reaches it. */
  readonly crops: ReadonlyMap<string, { readonly crop: string; readonly part: 'mass' | 'baseMoisture' }>;
}

/** Gathers the names of a book. */
export function vocabularyOf(book: Book): Vocabulary {
  const machines = [...book.machines.values()];
  const headers = [...book.headers.values()];
  const software = machines.flatMap((machine) => machine.software);
  return {
    machines: new Set(book.machines.keys()),
    headers: new Set(book.headers.keys()),
    headerTypes: new Set([...headerTypes, ...headers.map(({ type }) => type.value)]),
    options: new Set(machines.flatMap((machine) => machine.options.map(({ id }) => id))),
    versions: new Set(software.flatMap(({ versions }) => versions.map(({ value }) => value))),
    modules: new Set(software.map(({ module }) => module.value)),
    machineParameters: new Set(machines.flatMap(({ parameters }) => [...parameters.keys()])),
    headerParameters: new Set(headers.flatMap(({ parameters }) => [...parameters.keys()])),
    words: new Set(machines.flatMap(({ words }) => [...words.keys()])),
    places: new Set(book.states.get('person')?.values.map(({ id }) => id.value)),
    crops: cropPaths(book),
  };
}

function cropPaths(book: Book): Vocabulary['crops'] {
  const paths = new Map<string, { readonly crop: string; readonly part: 'mass' | 'baseMoisture' }>();
  for (const { id, mass, baseMoisture } of book.crops.values()) {
    const name = id.replaceAll('-', '_');
    for (const start of [`crop.${name}`, name]) {
      if (mass) paths.set(`${start}.mass`, { crop: id, part: 'mass' });
      if (baseMoisture) paths.set(`${start}.base_moisture`, { crop: id, part: 'baseMoisture' });
    }
  }
  return paths;
}

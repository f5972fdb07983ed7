// A book that tells what is looked up in it: so it is known which work has to be done again after a change. Changes nothing.

import type { Book, Header, Machine } from '../model/book.js';

type Hear = (name: string) => void;

/** The book, with a word to `hear` for each parameter, instrument, crop, bundle and procedure that is looked up in it. */
export function watchBook(book: Book, hear: Hear): Book {
  return {
    ...book,
    machines: new Map([...book.machines].map(([id, machine]) => [id, watchParameters(machine, `machine ${id}`, hear)])),
    headers: new Map([...book.headers].map(([id, header]) => [id, watchParameters(header, `header ${id}`, hear)])),
    instruments: watchMap(book.instruments, 'instrument', hear),
    crops: watchMap(book.crops, 'crop', hear),
    bundles: watchMap(book.bundles, 'bundle', hear),
    procedures: watchMap(book.procedures, 'procedure', hear),
  };
}

function watchParameters<T extends Machine | Header>(holder: T, name: string, hear: Hear): T {
  return { ...holder, parameters: watchMap(holder.parameters, name, hear) };
}

/** A map that tells of each key that is asked for as `name key`, and of all of them where it is gone through. */
function watchMap<V>(map: ReadonlyMap<string, V>, name: string, hear: Hear): ReadonlyMap<string, V> {
  const ask = (key: string): string => {
    hear(`${name} ${key}`);
    return key;
  };
  const all = (): ReadonlyMap<string, V> => {
    for (const key of map.keys()) ask(key);
    return map;
  };
  return {
    get: (key) => map.get(ask(key)),
    has: (key) => map.has(ask(key)),
    get size() {
      return all().size;
    },
    keys: () => map.keys(),
    values: () => all().values(),
    entries: () => all().entries(),
    forEach: (each) => {
      for (const [key, value] of all()) each(value, key, map);
    },
    [Symbol.iterator]: () => all()[Symbol.iterator](),
  };
}

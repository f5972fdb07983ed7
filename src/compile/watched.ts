// A book or a context that tells what is read of it: so it is known which work has to be done again after a change.
// Changes nothing that is read.

import type { Book, Header, Machine } from '../model/book.js';
import type { Context } from '../rules/rule.js';

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

/** The context, with a word to `hear` for each part of the book or of what was worked out that a rule looks at. */
export function watchContext(context: Context, hear: Hear): Context {
  const { resolved, book, proofs, ...rest } = context;
  const watched = {
    ...rest,
    book: watchParts(book, 'book', hear),
    resolved: watchParts({ ...resolved, book: watchParts(resolved.book, 'book', hear) }, 'resolved', hear),
  };
  if (proofs === undefined) return watched;
  return Object.defineProperty(watched, 'proofs', {
    enumerable: true,
    get: () => {
      hear('proofs');
      return proofs;
    },
  });
}

function watchParts<T extends object>(of: T, name: string, hear: Hear): T {
  return new Proxy(of, {
    get: (target, key) => {
      hear(`${name}.${String(key)}`);
      return Reflect.get(target, key);
    },
  });
}

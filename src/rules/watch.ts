// Notes what a rule looks at besides its subject: what it found holds for as long as those are the same objects.

import type { Context } from './rule.js';

/** What was looked at, by its path in the context, and what stood there. */
export type Looks = ReadonlyMap<string, unknown>;

export interface Watch {
  /** Does a piece of work with the context, and notes what it looks at there. */
  readonly note: <T>(work: (context: Context) => T) => { readonly looks: Looks; readonly value: T };
  /** Whether all that was looked at is what stands there now. */
  readonly isSame: (looks: Looks) => boolean;
}

const ofBook = 'book.';
const ofResolved = 'resolved.';

/** A watch over one context. Of the book and of what was worked out each part counts for itself. */
export function makeWatch(given: Context): Watch {
  let looks: Map<string, unknown> | undefined;
  const stands = (path: string): unknown => {
    if (path.startsWith(ofBook)) return given.book[path.slice(ofBook.length) as keyof Context['book']];
    if (path.startsWith(ofResolved)) return given.resolved[path.slice(ofResolved.length) as keyof Context['resolved']];
    return given[path as keyof Context];
  };
  const see = (path: string): unknown => {
    const value = stands(path);
    looks?.set(path, value);
    return value;
  };
  const book = watched<Context['book']>(Object.keys(given.book), (key) => see(`${ofBook}${key}`));
  const resolved = watched<Context['resolved']>(Object.keys(given.resolved), (key) =>
    key === 'book' ? book : see(`${ofResolved}${key}`),
  );
  // also what may be missing is asked for: it may be there the next time
  const context = watched<Context>(['book', 'resolved', 'today', 'isPart', 'proofs'], (key) =>
    key === 'book' ? book : key === 'resolved' ? resolved : see(key),
  );
  return {
    note: (work) => {
      const own = new Map<string, unknown>();
      looks = own;
      const value = work(context);
      looks = undefined;
      return { looks: own, value };
    },
    isSame: (before) => [...before].every(([path, value]) => stands(path) === value),
  };
}

/** A record whose every key is asked for through `see`. */
function watched<T extends object>(keys: readonly string[], see: (key: string) => unknown): T {
  const getters = keys.map((key) => [key, { get: () => see(key), enumerable: true }] as const);
  return Object.defineProperties({}, Object.fromEntries(getters)) as T;
}

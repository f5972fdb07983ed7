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

/** A watch over one context. Of the book and of what was worked out each part counts for itself. */
export function makeWatch(given: Context): Watch {
  let looks: Map<string, unknown> | undefined;
  // asked tens of thousands of times in a check: written out once
  const standing = new Map<string, unknown>([
    ...Object.entries(given),
    ...Object.entries(given.book).map(([key, part]) => [`book.${key}`, part] as const),
    ...Object.entries(given.resolved).map(([key, part]) => [`resolved.${key}`, part] as const),
  ]);
  const see = (path: string): unknown => {
    const value = standing.get(path);
    looks?.set(path, value);
    return value;
  };
  const book = watched<Context['book']>(Object.keys(given.book), (key) => see(`book.${key}`));
  const resolved = watched<Context['resolved']>(Object.keys(given.resolved), (key) =>
    key === 'book' ? book : see(`resolved.${key}`),
  );
  // also what may be missing is asked for: it may be there the next time
  const context = watched<Context>(['book', 'resolved', 'today', 'isPart', 'proofs', 'reprove'], (key) =>
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
    isSame: (before) => {
      for (const [path, value] of before) if (standing.get(path) !== value) return false;
      return true;
    },
  };
}

/** A record whose every key is asked for through `see`. */
function watched<T extends object>(keys: readonly string[], see: (key: string) => unknown): T {
  const getters = keys.map((key) => [key, { get: () => see(key), enumerable: true }] as const);
  return Object.defineProperties({}, Object.fromEntries(getters)) as T;
}

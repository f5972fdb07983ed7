// Plain data without what is not there: no key of an open file is null.

/** An object whose keys may be missing instead of undefined. */
type Whole<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** Leaves out what is undefined. */
export function withoutMissing<T extends object>(entries: T): Whole<T> {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Whole<T>;
}

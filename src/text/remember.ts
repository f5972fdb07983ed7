// A result remembered by the object that it was made of: it goes when that object goes. Knows nothing of what it remembers.

/** What `make` gave last time for this object, if all other parts were the same objects then, or what it gives now. */
export type Remember<T> = (of: object, parts: readonly unknown[], make: () => T) => T;

/** A memory of its own for one kind of result. */
export function remembering<T>(): Remember<T> {
  const known = new WeakMap<object, { readonly parts: readonly unknown[]; readonly value: T }>();
  return (of, parts, make) => {
    const before = known.get(of);
    if (before?.parts.length === parts.length && before.parts.every((part, i) => part === parts[i]))
      return before.value;
    const value = make();
    known.set(of, { parts, value });
    return value;
  };
}

// Whether two things that were read or worked out say the same, places included. Knows nothing of what they are.

/** Whether both hold the same in the same order of lists; maps and records in any order. */
export function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((item, i) => same(item, b[i]));
  if (a instanceof Map) return b instanceof Map && sameEntries(a, b);
  if (a instanceof Set) return b instanceof Set && a.size === b.size && [...a].every((item) => b.has(item));
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every((key) => key in b && same((a as Plain)[key], (b as Plain)[key]));
}

type Plain = Readonly<Record<string, unknown>>;

function sameEntries(a: ReadonlyMap<unknown, unknown>, b: ReadonlyMap<unknown, unknown>): boolean {
  return a.size === b.size && [...a].every(([key, value]) => b.has(key) && same(value, b.get(key)));
}

// The first plain value that stands twice in a list.

/** Where it stands again (`i`) and where first (`j`); undefined where none does. */
export function findTwice(list: readonly unknown[]): { readonly i: number; readonly j: number } | undefined {
  const places = new Map<unknown, number>();
  for (const [i, item] of list.entries()) {
    const j = places.get(item);
    if (j !== undefined && typeof item !== 'object') return { i, j };
    places.set(item, i);
  }
  return undefined;
}

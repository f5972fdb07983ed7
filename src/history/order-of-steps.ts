// Which of a list's members are in another place: the fewest that must be taken out so that the others stand as before.

/**
 * The members of both lists that moved, in the order of `after`. The same are said to have moved if the lists change
 * places.
 */
export function movedBetween(before: readonly string[], after: readonly string[]): readonly string[] {
  const [own, other] = [before.filter((id) => after.includes(id)), after.filter((id) => before.includes(id))];
  // which of two that changed places moved is a matter of choice: it is made alike from both sides
  const isTurned = own.join(' ') > other.join(' ');
  const stay = new Set(isTurned ? longestCommon(other, own) : longestCommon(own, other));
  return other.filter((id) => !stay.has(id));
}

/** The longest row of members that stand in both lists in the same order; of several the one that begins first in `a`. */
function longestCommon(a: readonly string[], b: readonly string[]): readonly string[] {
  const place = new Map(b.map((id, i) => [id, i]));
  const at = a.map((id) => place.get(id) ?? 0);
  // length of the longest rising row that begins here
  const lengths = at.map(() => 1);
  for (let i = at.length - 1; i >= 0; i -= 1) {
    for (let j = i + 1; j < at.length; j += 1) {
      if ((at[j] ?? 0) > (at[i] ?? 0)) lengths[i] = Math.max(lengths[i] ?? 1, (lengths[j] ?? 1) + 1);
    }
  }
  const row: string[] = [];
  let [wanted, last] = [Math.max(0, ...lengths), -1];
  for (let i = 0; i < at.length && wanted > 0; i += 1) {
    if (lengths[i] !== wanted || (at[i] ?? 0) <= last) continue;
    row.push(a[i] ?? '');
    last = at[i] ?? 0;
    wanted -= 1;
  }
  return row;
}

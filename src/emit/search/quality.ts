// How well a word of a text is met by what was typed: exactly, in another form, begun, or with slips of the fingers.

const exact = 1;
const inflected = 0.95;
const begun = 0.8;
/** What a word counts that is met with one slip; with two it counts less. */
export const oneSlip = 0.7;
const twoSlips = 0.5;

/** From 1 for the word itself to 0.5 for one that is nearly so. */
export function qualityOf(asked: string, term: string): number {
  if (term === asked) return exact;
  if (isInflected(asked, term) || isInflected(term, asked)) return inflected;
  if (term.startsWith(asked)) return begun;
  return slipsBetween(asked, term) <= 1 ? oneSlip : twoSlips;
}

/** Plurals and the endings that a verb takes, in both languages: enough to see that they are the same word. */
function isInflected(short: string, long: string): boolean {
  const stem = short.replace(/[eoa]$/, '');
  return (
    short.length > 2 &&
    long.startsWith(stem) &&
    /^(?:s|es|[eoa]s|ed|ing|e|r|er|[aei]r|[ao]|d)$/.test(long.slice(stem.length))
  );
}

/** Letters typed wrong, too much, too little, or in the place of their neighbour (optimal string alignment). */
export function slipsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      const isExchanged = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (isExchanged) cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

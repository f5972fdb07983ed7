// The names that a wrong one may have been meant to be. Knows nothing of what the names stand for.

import { compareText } from './diagnostic.js';

/**
 * At most three of `candidates` that `name` may be a slip of, the nearest first. Capitals and the kind of joint (`-`, `_`,
 * a space) do not count; otherwise a third of the letters may be wrong, and one of short names. Two letters exchanged
 * count as one slip.
 */
export function nearestNames(name: string, candidates: Iterable<string>): readonly string[] {
  const meant = plain(name);
  const allowed = Math.max(1, Math.floor(meant.length / 3));
  const found: { readonly candidate: string; readonly slips: number }[] = [];
  for (const candidate of new Set(candidates)) {
    const slips = countSlips(meant, plain(candidate), allowed);
    // a name of one or two letters has every other such name as a neighbour
    if (slips <= allowed && slips < meant.length) found.push({ candidate, slips });
  }
  return found
    .sort((a, b) => a.slips - b.slips || compareText(a.candidate, b.candidate))
    .slice(0, 3)
    .map(({ candidate }) => candidate);
}

/** `Did you mean \`a\`, \`b\` or \`c\`?`; undefined where there is nothing near. */
export function askWhetherMeant(names: readonly string[]): string | undefined {
  const quoted = names.map((name) => `\`${name}\``);
  if (quoted.length === 0) return undefined;
  const last = quoted.at(-1);
  return quoted.length === 1 ? `Did you mean ${last}?` : `Did you mean ${quoted.slice(0, -1).join(', ')} or ${last}?`;
}

function plain(name: string): string {
  return name.toLowerCase().replaceAll(/[\s_]/g, '-');
}

/** Letters left out, put in, changed or exchanged with their neighbour; more than `most` as soon as that is sure. */
export function countSlips(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const changed = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(changed, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    if (Math.min(...row) > most) return most + 1;
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

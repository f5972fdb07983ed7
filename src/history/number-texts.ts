// Texts that differ only by numbers which changed elsewhere: a step that says its own time changes with the time.

/** The numbers of a text in order, a decimal comma as a point. */
export function numbersIn(text: string): readonly string[] {
  return [...text.matchAll(/\d+(?:[.,]\d+)*/g)].map(([number]) => number.replaceAll(',', '.'));
}

/** Whether two texts say the same but for these numbers, each of which stands in both at the same place. */
export function sayTheSame(
  before: string,
  after: string,
  pairs: readonly { readonly before: string; readonly after: string }[],
): boolean {
  if (before === after) return true;
  // the longest first: `2 to 3 s` before `3 s`
  const sorted = [...pairs].sort((a, b) => weightOf(b) - weightOf(a));
  const mask = (text: string, side: 'before' | 'after'): string =>
    sorted.reduce((masked, pair, i) => masked.replaceAll(patternOf(pair[side]), `\u0001${i}\u0002`), text);
  return mask(before, 'before') === mask(after, 'after');
}

function weightOf({ before, after }: { readonly before: string; readonly after: string }): number {
  return before.length + after.length;
}

// the words between numbers differ by language: `2 to 3 s`, `2 a 3 s`; `at least 2.5 V`, `al menos 2.5 V`
function patternOf(shown: string): RegExp {
  const pieces = shown
    .replace(/^(?:at least|at most)\s/, '')
    .split(/\sto\s/)
    .map((piece) => escaped(piece).replaceAll(/\s+/g, '\\s*'));
  return new RegExp(`(?<![\\d.,])${pieces.join('\\s\\p{L}+\\s')}(?![\\d\\p{L}])`, 'gu');
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&');
}

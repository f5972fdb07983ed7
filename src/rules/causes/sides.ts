// What is wrong with a step or value that `for-each` repeats is wrong once, not once for each side.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';

/** Diagnostics of one written place that differ in the side alone as one; its note names the other sides. */
export function joinSides(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const sidesIn = new Map<string, readonly string[]>();
  for (const { file, forEach } of book.procedures.values()) {
    if (forEach)
      sidesIn.set(
        file,
        forEach.values.map(({ value }) => value),
      );
  }
  const joined: Diagnostic[] = [];
  const places = new Map<string, number>();
  for (const diagnostic of diagnostics) {
    const sides = sidesIn.get(diagnostic.at.file) ?? [];
    const key = sides.length === 0 ? undefined : keyOf(diagnostic, sides);
    const index = key === undefined ? undefined : places.get(key);
    const first = index === undefined ? undefined : joined[index];
    if (first && index !== undefined) joined[index] = withSides(first, diagnostic, sides);
    else {
      if (key !== undefined) places.set(key, joined.length);
      joined.push(diagnostic);
    }
  }
  return joined;
}

function keyOf({ code, at, message, rigs }: Diagnostic, sides: readonly string[]): string {
  const plain = sides.reduce((text, side) => text.replaceAll(wordOf(side), '{side}'), message);
  return JSON.stringify([code, at.file, at.start, at.end, rigs, plain.replaceAll(/\bstep [\d.]+/gi, 'step')]);
}

// a side within a name: `arm_left`, `turn-left`
function wordOf(side: string): RegExp {
  return new RegExp(`(?<!\\p{L})${side.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?!\\p{L})`, 'gu');
}

function withSides(first: Diagnostic, other: Diagnostic, sides: readonly string[]): Diagnostic {
  const named = sides.filter((side) => wordOf(side).test(other.message) && !wordOf(side).test(first.message));
  if (named.length === 0) return first;
  const same = `The same goes for ${named.map((side) => `\`${side}\``).join(' and ')}.`;
  return { ...first, note: first.note === undefined ? same : `${first.note} ${same}` };
}

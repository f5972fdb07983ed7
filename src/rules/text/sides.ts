// The sides of a procedure, and which of them words name.

import type { Procedure } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { languageOf } from './languages/languages.js';

/** Left and right, and what `for-each` goes through. */
export function sidesOf({ forEach }: Procedure): readonly string[] {
  return [...new Set(['left', 'right', ...(forEach?.values ?? []).map(({ value }) => value)])];
}

/** The one side that stands in an id: `left` in `end_left`. */
export function sideIn(id: string, sides: readonly string[]): string | undefined {
  const found = id.split(/[_-]/).filter((part) => sides.includes(part));
  return found.length === 1 ? found[0] : undefined;
}

/** Another side that words name, and not `side`: which one, and where in the words. */
export interface OtherSide {
  readonly other: string;
  readonly start: number;
  readonly end: number;
}

/** Undefined where the words name `side`, no side, or several; from where something is looked at is no side that it is on. */
export function otherSideIn(
  words: string,
  { side, sides, language }: { readonly side: string; readonly sides: readonly string[]; readonly language: string },
): OtherSide | undefined {
  if (languageOf(language)?.seenFrom.test(words) || wordOf(side, language).test(words)) return undefined;
  const named = sides.flatMap((other): readonly OtherSide[] => {
    const found = other === side ? null : wordOf(other, language).exec(words);
    return found ? [{ other, start: found.index, end: found.index + found[0].length }] : [];
  });
  return named.length === 1 ? named[0] : undefined;
}

function wordOf(side: string, code: string): RegExp {
  const language = languageOf(code);
  const known = side === 'left' ? language?.left : side === 'right' ? language?.right : undefined;
  return known ?? new RegExp(`(?<![\\p{L}\\p{N}])${side}(?![\\p{L}\\p{N}])`, 'iu');
}

/** A side that `for-each` calls by the name of another. */
export interface Miscalled {
  readonly side: string;
  readonly other: string;
  readonly words: string;
  readonly at: Span;
}

/** All of them, each once. Whatever is repeated then names the wrong side, and this alone is to be mended. */
export function miscalledSides(procedure: Procedure): readonly Miscalled[] {
  const sides = sidesOf(procedure);
  return (procedure.forEach?.values ?? []).flatMap(({ value: side, at }) => {
    for (const [language, all] of procedure.forEach?.words ?? []) {
      const words = all.get(side);
      const found = words === undefined ? undefined : otherSideIn(words, { side, sides, language });
      if (words !== undefined && found) return [{ side, other: found.other, words, at }];
    }
    return [];
  });
}

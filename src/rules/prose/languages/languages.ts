// The languages in which numbers are looked for in prose, and patterns made of their words.

import { type Caseless, caseless } from '../../../text/caseless.js';
import { english } from './english.js';
import type { NumberLanguage } from './language.js';
import { spanish } from './spanish.js';

/** The words of a language; English where it has none of its own. */
export function numberLanguage(code: string): NumberLanguage {
  return code === 'es' || code.startsWith('es-') ? spanish : english;
}

const made = new WeakMap<readonly string[], Map<string, Caseless>>();

/** A pattern around any of the words, longest first; made once for a list and a shape. `WORDS` is where they stand. */
export function patternOf(list: readonly string[], shape: string): Caseless {
  const known = made.get(list) ?? new Map<string, Caseless>();
  made.set(list, known);
  const before = known.get(shape);
  if (before) return before;
  const any = [...list]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replaceAll('.', '\\.').replaceAll(' ', '\\s+'));
  const pattern = caseless(shape.replaceAll('WORDS', `(?:${any.join('|') || '(?!)'})`));
  known.set(shape, pattern);
  return pattern;
}

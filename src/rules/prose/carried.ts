// Numbers that share the verb of an earlier one: `reads 3.9 V on the ground and 0.9 V fully raised`. Rather says no.

import type { Block } from '../text/blocks.js';
import type { Passage } from '../text/passages.js';
import type { NumberLanguage } from './languages/language.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { namedIn } from './naming.js';
import type { Stated } from './stated.js';

/**
 * Whether nothing stands between two numbers of a sentence but what the first one is of, a comma or `and`, and words that name
 * the second: then the verb before the first holds for both. `earlier` may be a reference to a typed number.
 */
export function sharesVerb(
  { hidden, language: code }: Passage,
  { earlier, start }: { readonly earlier: Block; readonly start: number },
  { labels, id }: Stated,
): boolean {
  const language = numberLanguage(code);
  const between = hidden.slice(earlier.end, start);
  const link = lastLink(between, language);
  if (link === undefined || /[.:;()]/.test(between)) return false;
  const names = labels.get(code)?.words ?? id;
  return [...namedIn(between.slice(link), language)].every((word) => names.has(word));
}

/** Where the last comma or `and` begins. */
function lastLink(text: string, { links }: NumberLanguage): number | undefined {
  return patternOf(links, ',(?=\\s)|\\sWORDS(?=\\s)').matchAll(text).at(-1)?.index;
}

// Which machine and which header a sentence speaks of, by its name. Judges nothing.

import type { Book } from '../../model/book.js';
import type { Text } from '../../model/text.js';
import { templatesOf } from '../../model/walk.js';
import type { Block } from '../text/blocks.js';
import type { Passage } from '../text/passages.js';

/** The one machine and the one header that are named; missing where none is, or several are. */
export interface NamedRig {
  readonly machine?: string;
  readonly header?: string;
}

/** Those of the sentence, or else of the heading above it; undefined where none is named alone. */
export function rigNamed(
  { source, section, language }: Passage,
  { start, end }: Block,
  book: Book,
): NamedRig | undefined {
  const texts = [source.value.slice(start, end), section?.heading?.text ?? ''];
  const machine = oneNamed(texts, namesOf(book.machines, language));
  const header = oneNamed(texts, namesOf(book.headers, language));
  if (machine === undefined && header === undefined) return undefined;
  return { ...(machine === undefined ? {} : { machine }), ...(header === undefined ? {} : { header }) };
}

type Name = readonly [id: string, name: string];

/** What things are called: a name without what stands behind its comma, which tells sizes. */
function namesOf(things: ReadonlyMap<string, { readonly name: Text }>, language: string): readonly Name[] {
  const names = [...things].flatMap(([id, { name }]) =>
    [...templatesOf(name, name.languages.has(language) ? language : undefined)].map(
      ({ source }): Name => [id, (source.value.split(',')[0] ?? '').trim()],
    ),
  );
  // a name that two things have tells none of them
  return names.filter(([id, name]) => name !== '' && names.every(([other, same]) => other === id || same !== name));
}

function oneNamed(texts: readonly string[], names: readonly Name[]): string | undefined {
  for (const text of texts) {
    const found = new Set(names.filter(([, name]) => holds(text, name)).map(([id]) => id));
    if (found.size > 0) return found.size === 1 ? [...found][0] : undefined;
  }
  return undefined;
}

/** Whether a name stands in a text as whole words, whatever its capitals. */
function holds(text: string, name: string): boolean {
  const [all, part] = [plain(text), plain(name)];
  for (let at = all.indexOf(part); at >= 0; at = all.indexOf(part, at + 1)) {
    if (!isLetter(all[at - 1]) && !isLetter(all[at + part.length])) return true;
  }
  return false;
}

function isLetter(sign: string | undefined): boolean {
  return sign !== undefined && /[\p{L}\p{N}]/u.test(sign);
}

function plain(text: string): string {
  return text.toLowerCase().replaceAll(/\s+/g, ' ');
}

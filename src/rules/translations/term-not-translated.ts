// A term of the book that the original of a text has, and its translation has by none of its words.

import type { Book, Term } from '../../model/book.js';
import type { Text } from '../../model/text.js';
import { textsOf } from '../../model/walk.js';
import { type SourceText, type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { hideNames } from '../text/names.js';

/** From so many letters on a lone word behind an article is the name of a thing. */
const leastLetters = 6;

interface Facts {
  readonly language: string;
  readonly use: string;
  readonly wanted: string;
}

export default rule({
  id: 'term-not-translated',
  severity: 'hint',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en', ...others] = book.settings.languages;
    const told = new Set<string>();
    for (const { text, role } of textsOf(procedure)) {
      if (role === 'label' || role === 'card') continue;
      for (const language of others) {
        const pair = pairOf(text, first, language);
        const key = pair && `${pair.at.file}:${pair.at.start}`;
        if (!pair || key === undefined || told.has(key)) continue;
        told.add(key);
        for (const lost of lostIn(pair, book, { first, language })) {
          const related = [
            { message: 'the original', at: lost.original },
            { message: 'the term', at: lost.term },
          ];
          yield { at: pair.at, related, data: { language, use: lost.use, wanted: lost.wanted } satisfies Facts };
        }
      }
    }
  },
  say: ({ language, use, wanted }: Facts) => ({
    message: `The original says \`${use}\`, and the \`${language}\` text has neither \`${wanted}\` nor another word for it`,
    help: `Write \`${wanted}\`, if the thing is meant here; another word for it stands in terms.yaml under \`also\`, with its language.`,
    note: 'One thing has one name: a reader of this language looks for what the other pages call by the term.',
  }),
});

interface Pair {
  readonly original: SourceText;
  readonly translated: string;
  readonly at: Span;
}

/** A text in both languages, where it is no choice in either. */
function pairOf(text: Text, first: string, language: string): Pair | undefined {
  const [own, other] = [text.languages.get(first), text.languages.get(language)];
  if (own?.kind !== 'one' || other?.kind !== 'one') return undefined;
  const { source } = other.value;
  return { original: own.value.source, translated: source.value, at: source.at };
}

interface Lost {
  readonly use: string;
  readonly wanted: string;
  readonly original: Span;
  readonly term: Span;
}

function* lostIn(
  { original, translated }: Pair,
  { terms }: Book,
  { first, language }: { readonly first: string; readonly language: string },
): Iterable<Lost> {
  const plain = plainOf(translated);
  for (const term of terms) {
    const [use, wanted] = [term.use.get(first)?.value, term.use.get(language)?.value];
    const named = use === undefined ? undefined : nameOf(use);
    if (use === undefined || wanted === undefined || !named) continue;
    const found = named.exec(hideNames(original.value, undefined));
    if (!found || wordsIn(term, language).some((words) => saysIt(plain, words))) continue;
    const at = spanWithin(original, found.index, found.index + found[0].length);
    yield { use, wanted, original: at, term: term.at };
  }
}

function wordsIn({ use, also }: Term, language: string): readonly string[] {
  const own = use.get(language)?.value;
  const others = also.filter((word) => word.language === language).map(({ value }) => value);
  return own === undefined ? others : [own, ...others];
}

/** Whether a text has the thing itself of a name, whatever its ending: `el tope` is a *tope de levante*. */
function saysIt(text: string, name: string): boolean {
  const [thing] = plainOf(name).match(/\p{L}{3,}/gu) ?? [];
  return thing === undefined || text.includes(` ${thing.slice(0, Math.max(3, Math.ceil(thing.length * 0.7)))}`);
}

function plainOf(text: string): string {
  return ` ${text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')}`;
}

/** Finds a term as the name of a thing. A lone word may be a verb or a word like others, as `couple` and `point`. */
function nameOf(term: string): RegExp | undefined {
  const isLone = !/\s/.test(term);
  if (isLone && term.length < leastLetters) return undefined;
  const before = isLone ? '(?<=(?<!\\p{L})(?:the|a|an|each|every|this)\\s+)' : '(?<![\\p{L}\\p{N}-])';
  const words = term.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/ +/g, '\\s+');
  return new RegExp(`${before}${words}(?:e?s)?(?![\\p{L}\\p{N}-])`, 'iu');
}

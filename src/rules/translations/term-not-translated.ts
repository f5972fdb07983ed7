// A term of the book that the original of a text has, and its translation has by none of its words.

import type { Book, Term } from '../../model/book.js';
import type { Text } from '../../model/text.js';
import { textsOf } from '../../model/walk.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { remembering } from '../../text/remember.js';
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
    const [first = 'en'] = book.settings.languages;
    const names = namesByLanguage(book);
    const told = new Set<string>();
    for (const { text, role } of textsOf(procedure)) {
      if (role === 'label' || role === 'card') continue;
      for (const [language, terms] of names) {
        const pair = pairOf(text, first, language);
        const key = pair && `${pair.at.file}:${pair.at.start}`;
        if (!pair || key === undefined || told.has(key)) continue;
        told.add(key);
        for (const lost of lostIn(pair, terms)) {
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

function* lostIn({ original, translated }: Pair, names: readonly Name[]): Iterable<Lost> {
  const plain = plainOf(translated);
  const hidden = hideNames(original.value, undefined);
  for (const { use, wanted, named, stems, at: term } of names) {
    const found = named.exec(hidden);
    if (!found || stems.some((stem) => plain.includes(stem))) continue;
    const at = spanWithin(original, found.index, found.index + found[0].length);
    yield { use, wanted, original: at, term };
  }
}

/** A term as it is looked for in both texts. */
interface Name {
  readonly use: string;
  readonly wanted: string;
  readonly named: Caseless;
  /** What any of its words in the other language begins with. */
  readonly stems: readonly string[];
  readonly at: Span;
}

// asked by each procedure anew
const rememberNames = remembering<ReadonlyMap<string, readonly Name[]>>();

/** The terms that a text may be held to, by the other languages of the book. */
function namesByLanguage({ terms, settings: { languages } }: Book): ReadonlyMap<string, readonly Name[]> {
  const [first = 'en', ...others] = languages;
  return rememberNames(terms, [languages], () => new Map(others.map((one) => [one, namesIn(terms, first, one)])));
}

function namesIn(terms: readonly Term[], first: string, language: string): readonly Name[] {
  return terms.flatMap((term): readonly Name[] => {
    const [use, wanted] = [term.use.get(first)?.value, term.use.get(language)?.value];
    const named = use === undefined ? undefined : nameOf(use);
    if (use === undefined || wanted === undefined || !named) return [];
    const stems = wordsIn(term, language).flatMap((words) => stemOf(words) ?? []);
    return [{ use, wanted, named, stems, at: term.at }];
  });
}

function wordsIn({ use, also }: Term, language: string): readonly string[] {
  const own = use.get(language)?.value;
  const others = also.filter((word) => word.language === language).map(({ value }) => value);
  return own === undefined ? others : [own, ...others];
}

/** How the thing itself of a name begins in a text, whatever its ending: `el tope` is a *tope de levante*. */
function stemOf(name: string): string | undefined {
  const [thing] = plainOf(name).match(/\p{L}{3,}/gu) ?? [];
  return thing && ` ${thing.slice(0, Math.max(3, Math.ceil(thing.length * 0.7)))}`;
}

function plainOf(text: string): string {
  return ` ${text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')}`;
}

/** Finds a term as the name of a thing. A lone word may be a verb or a word like others, as `couple` and `point`. */
function nameOf(term: string): Caseless | undefined {
  const isLone = !/\s/.test(term);
  if (isLone && term.length < leastLetters) return undefined;
  const before = isLone ? '(?<=(?<!\\p{L})(?:the|a|an|each|every|this)\\s+)' : '(?<![\\p{L}\\p{N}-])';
  const words = term.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/ +/g, '\\s+');
  return caseless(`${before}${words}(?:e?s)?(?![\\p{L}\\p{N}-])`);
}

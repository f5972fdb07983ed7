// What a tool is called in the words of a step: its label, its id, other words for it in terms.yaml, in any number.

import type { Book, Tool } from '../../model/book.js';
import { templatesOf } from '../../model/walk.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { remembering } from '../../text/remember.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';

/** How a tool may be spoken of in texts of the book's first language. */
export interface ToolNames {
  /** What names this tool and nothing else: its label without what it has, its id, other words for it. */
  readonly whole: Caseless;
  /** The thing itself where something is done with it: `with the wrench` of an open-end wrench. */
  readonly doneWith: Caseless;
  /** Whatever may speak of it: the thing itself, or what is done with it, as `scrape` of a scraper. */
  readonly any: Caseless;
}

const never = '(?!)';

/** The names of a tool; undefined where its label has no words. */
export function toolNames(tool: Tool, book: Book): ToolNames | undefined {
  const { settings, terms, states } = book;
  return remember(tool, [settings, terms, states], () => namesOf(tool, book));
}

// asked by each procedure anew
const remember = remembering<ToolNames | undefined>();

function namesOf({ id, label }: Tool, book: Book): ToolNames | undefined {
  const [first = 'en'] = book.settings.languages;
  const language = languageOf(first);
  const [template] = templatesOf(label, first);
  const words = nameWords(template?.source.value ?? '', language);
  const name = words.join(' ');
  if (!/\p{L}{3}/u.test(name)) return undefined;
  const thing = (language?.thingFirst ? words[0] : words.at(-1)) ?? name;
  const others = otherWords(book, { first, names: [name, thing] });
  const whole = [name, id.replaceAll('-', ' '), ...others].map(literal);
  const [things, doing] = [literal(thing), doingOf(thing, language)];
  const link = language && !isState(thing, book, first) ? [...language.doneWith].join('|') : never;
  return {
    whole: wholeWord(whole.join('|')),
    doneWith: wholeWord(`(?<=(?:${link})\\s+(?:[\\p{L}-]+\\s+){0,3})${things}`),
    any: wholeWord([...whole, things, ...(doing === undefined ? [] : [doing])].join('|')),
  };
}

/** The words of a label up to a comma, a bracket, or what it has: `Hex key with a T handle` is a hex key. */
function nameWords(label: string, language: Language | undefined): readonly string[] {
  const words = (label.split(/[,;:(]/)[0] ?? '').trim().toLowerCase().split(/\s+/);
  const end = words.findIndex((word, i) => i > 0 && language?.besideThing.has(language.bare(word)));
  return end < 0 ? words : words.slice(0, end);
}

/** What terms.yaml has besides a name, or besides the thing itself. */
function otherWords(
  { terms }: Book,
  { first, names }: { readonly first: string; readonly names: readonly string[] },
): readonly string[] {
  return terms.flatMap(({ use, also, never: shunned }) => {
    const own = [...also, ...shunned].filter(({ language }) => language === first).map(({ value }) => value);
    const all = [use.get(first)?.value ?? [], ...own].flat().map((word) => word.toLowerCase());
    return all.some((word) => names.includes(word)) ? all.filter((word) => !names.includes(word)) : [];
  });
}

/** A key is also that of the engine: what names a state is no sure name of a tool. */
function isState(thing: string, { states }: Book, first: string): boolean {
  return [...states.values()].some(({ label }) =>
    [...templatesOf(label, first)].some(({ source }) => source.value.toLowerCase().split(/\s+/).includes(thing)),
  );
}

/** `scrap` of a scraper, with any ending; undefined of what is no doer, or too short to be told from other words. */
function doingOf(thing: string, language: Language | undefined): string | undefined {
  const stem = language ? thing.replace(language.doerEndings, '') : thing;
  return stem !== thing && stem.length >= 4 ? `${literal(stem)}\\p{L}{0,4}` : undefined;
}

function wholeWord(words: string): Caseless {
  return caseless(`(?<![\\p{L}-])(?:${words})(?:s|es)?(?![\\p{L}-])`);
}

function literal(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(/\s+/g, '[\\s-]+');
}

// Acts and warnings that say different things in the original, and the same in a translation.

import type { Book } from '../../model/book.js';
import type { Conditions } from '../../model/conditions.js';
import type { Step } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { loneWords } from './lone-words.js';

interface Facts {
  readonly language: string;
  readonly names: readonly [string, string];
  readonly words: readonly [string, string];
  readonly translated: string;
}

export default rule({
  id: 'translated-alike',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en', ...others] = book.settings.languages;
    for (const language of others) {
      for (const things of groupsOf(book)) yield* alike(things, first, language);
    }
  },
  say: ({ language, names, words, translated }: Facts) => ({
    message: `${names[0]} and ${names[1]} both read “${translated}” in \`${language}\`, and the original says “${words[0]}” and “${words[1]}”`,
    help: `Mend the \`${language}\` text of the one that says what the other is to say.`,
    note: 'Whoever reads this language is told one of the two twice and the other never.',
  }),
});

/** Something that is told, and what is to be done. */
interface Thing {
  readonly name: string;
  readonly text: Text | undefined;
  /** What it does, as text: two that do the same may well be told in the same words. */
  readonly does: string;
}

interface Told extends Thing {
  readonly words: string;
  readonly at: Span;
}

/** What may be taken for each other: the steps of a procedure, and what hazards are and how they are avoided. */
function* groupsOf({ hazards, procedures }: Book): Iterable<readonly Thing[]> {
  for (const { steps } of procedures.values()) {
    const once = steps.filter(({ repeated }) => !repeated);
    yield once.map((step) => ({ name: `\`${step.id.value}\``, text: step.do, does: doingOf(step) }));
  }
  for (const key of ['what', 'avoid'] as const) {
    yield [...hazards.values()].map((one) => ({ name: `\`${key}\` of \`${one.id}\``, text: one[key], does: one.id }));
  }
}

/** Each is held against the first one before it that reads the same. */
function* alike(things: readonly Thing[], first: string, language: string): Iterable<Finding<Facts>> {
  const before = new Map<string, Told>();
  for (const thing of things) {
    const [original, translated] = [loneWords(thing.text, first), loneWords(thing.text, language)];
    if (!original || !translated) continue;
    const told = { ...thing, words: original.words, at: translated.at };
    const other = before.get(translated.words.toLowerCase());
    if (!other) before.set(translated.words.toLowerCase(), told);
    if (!other || other.does === told.does || other.words.toLowerCase() === told.words.toLowerCase()) continue;
    const related = [{ message: other.name, at: other.at }];
    const names = [other.name, told.name] as const;
    const data = { language, names, words: [other.words, told.words] as const, translated: translated.words };
    yield { at: told.at, related, data };
  }
}

function doingOf({ sets, measure, adjust, wait, hold, run, place }: Step): string {
  const ids = [...measure, ...adjust].map(({ value }) => value);
  const times = [wait, hold].map((choice) => (choice?.kind === 'one' ? choice.value.source.value : choice?.kind));
  return JSON.stringify([setsOf(sets), ids, times, run?.value, place?.value]);
}

function setsOf(sets: Conditions | undefined): readonly string[] {
  if (!sets) return [];
  if (sets.kind === 'bundle') return [sets.name.value];
  const words = sets.conditions.map(({ state, test }) => {
    const values = test.kind === 'words' ? test.words.map(({ value }) => value) : [test.kind];
    return `${state.value}: ${values.join(' or ')}`;
  });
  return words.sort();
}

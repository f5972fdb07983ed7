// A translated text whose numbers or placeholders are not those of the original.

import type { Procedure } from '../../model/procedure.js';
import { textsOf } from '../../model/walk.js';
import { type Finding, rule } from '../rule.js';
import { type Difference, differencesOf, proseDifferences } from './differences.js';
import { sharedTexts } from './shared-texts.js';

interface Facts {
  readonly language: string;
  readonly missing: readonly string[];
  readonly extra: readonly string[];
}

export default rule({
  id: 'translation-differs',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en', ...others] = book.settings.languages;
    for (const language of others) {
      for (const text of sharedTexts(book)) yield* told(differencesOf(text, first, language), language);
      for (const procedure of book.procedures.values()) yield* inProcedure(procedure, first, language);
    }
  },
  say: ({ language, missing, extra }: Facts) => ({
    message: `The \`${language}\` text ${[
      missing.length > 0 ? `lacks ${missing.map((part) => `\`${part}\``).join(', ')}` : '',
      extra.length > 0 ? `has ${extra.map((part) => `\`${part}\``).join(', ')}, which the original has not` : '',
    ]
      .filter((part) => part !== '')
      .join(' and ')}`,
    help: 'Bring numbers and placeholders to what the original says.',
    note: 'Whoever reads this language would work to another number.',
  }),
});

// what was found in a procedure holds for as long as it is the same one
const known = new WeakMap<Procedure, Map<string, readonly Finding<Facts>[]>>();

function inProcedure(procedure: Procedure, first: string, language: string): readonly Finding<Facts>[] {
  const found = known.get(procedure) ?? new Map<string, readonly Finding<Facts>[]>();
  known.set(procedure, found);
  const key = `${first} ${language}`;
  const before = found.get(key);
  if (before) return before;
  const texts = textsOf(procedure).flatMap(({ text }) => [...told(differencesOf(text, first, language), language)]);
  const all = [...texts, ...told(proseDifferences(procedure, first, language), language)];
  found.set(key, all);
  return all;
}

function* told(differences: Iterable<Difference>, language: string): Iterable<Finding<Facts>> {
  for (const { at, original, missing, extra } of differences) {
    yield { at, related: [{ message: 'the original', at: original }], data: { language, missing, extra } };
  }
}

// Steps that say the same in the original, and not in the translation.

import type { Procedure } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { loneWords } from './lone-words.js';

interface Facts {
  readonly language: string;
  readonly step: string;
  readonly other: string;
  readonly words: string;
}

export default rule({
  id: 'translated-two-ways',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const [first = 'en', ...others] = book.settings.languages;
    for (const language of others) yield* twoWays(procedure, first, language);
  },
  say: ({ language, step, other, words }: Facts) => ({
    message: `\`${step}\` says something else in \`${language}\` than \`${other}\`, and both say \`${words}\` in the original`,
    help: 'Bring the two to the same words: one of them may say another act.',
    note: 'The same act in other words looks like another act. Of two that differ one may be a slip: raise for lower.',
  }),
});

interface Told {
  readonly step: string;
  readonly words: string;
  readonly translated: string;
  readonly at: Span;
}

/** The act that differs is the one that fewer steps have; of as many, the later. */
function* twoWays({ steps }: Procedure, first: string, language: string): Iterable<Finding<Facts>> {
  const groups = new Map<string, Told[]>();
  for (const step of steps) {
    const [original, translated] = [loneWords(step.do, first), loneWords(step.do, language)];
    if (!original || !translated || step.repeated) continue;
    const { words } = original;
    const told = { step: step.id.value, words, translated: translated.words.toLowerCase(), at: translated.at };
    groups.set(words, [...(groups.get(words) ?? []), told]);
  }
  for (const group of groups.values()) {
    const count = (one: Told): number => group.filter(({ translated }) => translated === one.translated).length;
    const [usual] = [...group].sort((a, b) => count(b) - count(a));
    const odd = group.find((one) => usual && one.translated !== usual.translated);
    if (!usual || !odd) continue;
    const related = [{ message: `\`${usual.step}\``, at: usual.at }];
    yield { at: odd.at, related, data: { language, step: odd.step, other: usual.step, words: odd.words } };
  }
}

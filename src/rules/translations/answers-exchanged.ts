// Answers to a question that say yes for no, or that nobody can tell apart.

import type { Procedure, Step } from '../../model/procedure.js';
import { type Finding, rule } from '../rule.js';
import { languageOf } from '../text/languages/languages.js';
import { type LoneWords, loneWords } from './lone-words.js';

interface Facts {
  readonly language: string;
  readonly step: string;
  readonly answer: string;
  readonly words: string;
  /** The other answer that reads the same; missing where this one says the contrary of what it stands for. */
  readonly other?: string;
}

export default rule({
  id: 'answers-exchanged',
  severity: 'error',
  needs: 'procedure',
  *run({ steps }: Procedure, { book }) {
    for (const language of book.settings.languages) {
      for (const step of steps) {
        const finding = contrary(step, language) ?? alike(step, language);
        if (finding) yield finding;
      }
    }
  },
  say: ({ language, step, answer, words, other }: Facts) => ({
    message:
      other === undefined
        ? `The answer \`${answer}\` of \`${step}\` reads “${words}” in \`${language}\`, which is the contrary`
        : `The answers \`${other}\` and \`${answer}\` of \`${step}\` both read “${words}” in \`${language}\``,
    help:
      other === undefined
        ? 'Give each answer its own words: they were likely exchanged.'
        : 'Give each answer its own words.',
    note: 'Whoever taps the answer in this language is led where the other one leads.',
  }),
});

interface Read extends LoneWords {
  readonly key: string;
}

/** An answer that stands for yes and reads no, or the other way round. */
function contrary({ id, answers }: Step, language: string): Finding<Facts> | undefined {
  const said = (key: string, words: string): boolean => isWord('yes', key, 'en') && isWord('no', words, language);
  const denied = (key: string, words: string): boolean => isWord('no', key, 'en') && isWord('yes', words, language);
  const wrong = readIn(answers, language).find(({ key, words }) => said(key, words) || denied(key, words));
  if (!wrong) return undefined;
  return { at: wrong.at, data: { language, step: id.value, answer: wrong.key, words: wrong.words } };
}

function alike({ id, answers }: Step, language: string): Finding<Facts> | undefined {
  const all = readIn(answers, language);
  for (const [index, { key, words, at }] of all.entries()) {
    const other = all.slice(0, index).find((one) => one.words.toLowerCase() === words.toLowerCase());
    if (!other) continue;
    const related = [{ message: `\`${other.key}\``, at: other.at }];
    return { at, related, data: { language, step: id.value, answer: key, words, other: other.key } };
  }
  return undefined;
}

function readIn(answers: Step['answers'], language: string): readonly Read[] {
  return answers.flatMap(({ key, label }) => {
    const read = loneWords(label, language);
    return read ? [{ key: key.value, ...read }] : [];
  });
}

function isWord(kind: 'yes' | 'no', words: string, language: string): boolean {
  const list = languageOf(language);
  return list?.[kind].has(list.bare(words.trim())) ?? false;
}

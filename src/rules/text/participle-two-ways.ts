// An -ing form that may belong to the thing before it or to whoever acts: `Watch the header lowering the reel`.

import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import type { Language } from './languages/language.js';
import { languageOf } from './languages/languages.js';
import { nameSign } from './names.js';
import { judgePassages, type Passage, type Role } from './passages.js';
import type { Sentence, Word } from './sentences.js';

const atWork: ReadonlySet<Role> = new Set(['step', 'question', 'expectation', 'condition', 'avoid']);

interface Facts {
  readonly word: string;
  readonly before: string;
}

export default rule({
  id: 'participle-two-ways',
  severity: 'hint',
  needs: 'book',
  run: (book) => judgePassages(book, findParticiples),
  say: ({ word, before }: Facts) => ({
    message: `\`${word}\` may belong to \`${before}\` or to whoever does the step`,
    help: `Say which: \`that\` and a verb for what belongs to \`${before}\`, \`with\` or a sentence of its own for what you do.`,
    note: 'ASD-STE100: no -ing forms outside names, since they read in two ways. Translations have to guess which.',
  }),
});

function* findParticiples(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const { role, language, hidden, sentences, source } of passages) {
    const words = atWork.has(role) ? languageOf(language) : undefined;
    if (!words) continue;
    for (const sentence of sentences) {
      const found = participleIn(hidden, sentence, words);
      if (!found) continue;
      const at = spanWithin(source, found.word.start, found.word.end);
      yield { at, data: { word: found.word.text, before: found.before.text } };
    }
  }
}

/** An -ing form between a thing and its own object. */
function participleIn(
  hidden: string,
  { words }: Sentence,
  language: Language,
): { readonly word: Word; readonly before: Word } | undefined {
  for (const [i, word] of words.entries()) {
    const [before, next] = [words[i - 1], words[i + 1]];
    if (!before || !next || !language.isParticiple(language.bare(word.text))) continue;
    const isApart = /[,;:.(|]/.test(hidden.slice(before.end, word.start));
    const isThing = !before.text.startsWith(nameSign) && !language.beforeParticiple.has(language.bare(before.text));
    const hasObject = next.text.startsWith(nameSign) || language.objects.has(language.bare(next.text));
    if (!isApart && isThing && hasObject) return { word, before };
  }
  return undefined;
}

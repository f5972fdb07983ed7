// A step that orders two acts.

import type { Book } from '../../model/book.js';
import { type Span, spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { actsOf } from './acts.js';
import { languageOf } from './languages/languages.js';
import { judgePassages, type Passage } from './passages.js';

interface Facts {
  readonly first: string;
  readonly second: string;
  readonly count: number;
}

export default rule({
  id: 'two-acts-in-step',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findTwo),
  say: ({ first, second, count }: Facts) => ({
    message: `This step orders ${count === 2 ? 'two acts' : `${count} acts`}: \`${first}\` and \`${second}\``,
    help: `Make a step of its own that begins with \`${capital(second)}\`. What is only seen goes under \`expect\`.`,
    note: 'One step, one act (ASD-STE100: one instruction a sentence): who is called away in between takes the second one for done.',
  }),
});

function* findTwo(passages: readonly Passage[], { settings }: Book): Iterable<Finding<Facts>> {
  const [main = 'en'] = settings.languages;
  const told = new Set<string | undefined>();
  for (const passage of passages) {
    const acts = passage.role === 'step' ? actsIn(passage) : [];
    const [first, second] = acts;
    const step = passage.step?.id.value;
    // a translation says what the original says
    if (!first || !second || (passage.language !== main && told.has(step))) continue;
    told.add(step);
    yield { at: second.at, data: { first: first.word, second: second.word, count: acts.length } };
  }
}

interface Act {
  readonly word: string;
  readonly at: Span;
}

/** The acts of a step's text, over all its sentences. Only the first may be a companion such as `keep`. */
function actsIn({ hidden, sentences, source, language }: Passage): readonly Act[] {
  const words = languageOf(language);
  if (!words) return [];
  return sentences.flatMap((sentence, i) => {
    const conditional = i > 0 && words.conditions.has(words.bare(sentence.words[0]?.text ?? ''));
    const acts = conditional ? [] : actsOf(hidden, sentence, words);
    const [first] = acts;
    const counted = i > 0 && first && words.companions.has(words.bare(first.text)) ? acts.slice(1) : acts;
    return counted.map(({ text, start, end }) => ({ word: text, at: spanWithin(source, start, end) }));
  });
}

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1);
}

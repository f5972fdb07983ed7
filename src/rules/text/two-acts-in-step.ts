// A step that orders two acts.

import { type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { actsOf } from './acts.js';
import { languageOf } from './languages/languages.js';
import { type Passage, passagesOf } from './passages.js';

export default rule({
  id: 'two-acts-in-step',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [main = 'en'] = book.settings.languages;
    const told = new Set<string>();
    for (const passage of passagesOf(book)) {
      if (passage.role !== 'step') continue;
      const acts = actsIn(passage);
      const [first, second] = acts;
      if (!first || !second) continue;
      const key = `${passage.procedure?.id}/${passage.step?.id.value}`;
      // a translation says what the original says
      if (passage.language !== main && told.has(key)) continue;
      told.add(key);
      yield {
        at: second.at,
        data: { first: first.word, second: second.word, count: acts.length },
      };
    }
  },
  say: ({ first, second, count }) => ({
    message: `This step orders ${count === 2 ? 'two acts' : `${count} acts`}: \`${first}\` and \`${second}\``,
    help: `Make a step of its own that begins with \`${capital(second)}\`. What is only seen goes under \`expect\`.`,
    note: 'One step, one act (ASD-STE100: one instruction a sentence): who is called away in between takes the second one for done.',
  }),
});

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

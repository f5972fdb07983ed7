// A sentence that is longer than a reader beside a machine takes in at once.

import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { type Passage, passagesOf } from './passages.js';
import { countedParts } from './sentences.js';

/** Words that a sentence may have, after ASD-STE100: what is to be done, and what describes. */
const longest = { act: 20, other: 25 } as const;

export default rule({
  id: 'long-sentence',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const passage of passagesOf(book)) {
      const most = isAct(passage) ? longest.act : longest.other;
      for (const sentence of passage.sentences) {
        if (sentence.words.length <= most) continue;
        const words = Math.max(...countedParts(passage.hidden, sentence).map((part) => part.length));
        if (words <= most) continue;
        const at = spanWithin(passage.source, sentence.start, sentence.end);
        yield { at, data: { words, most, act: isAct(passage) } };
      }
    }
  },
  say: ({ words, most, act }) => ({
    message: `This sentence has ${words} words; ${act ? 'the act of a step' : 'a sentence'} has at most ${most}`,
    help: act
      ? 'Say one act in few words; put what explains it under `note`, or in the prose below a heading with the id of the step.'
      : 'Cut it into two sentences, or make a list of it.',
    note: 'ASD-STE100 allows 20 words in an instruction and 25 in a description. Labels, terms and numbers with units count as one word.',
  }),
});

function isAct({ role }: Passage): boolean {
  return role === 'step' || role === 'question' || role === 'card';
}

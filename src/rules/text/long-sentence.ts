// A sentence that is longer than a reader beside a machine takes in at once.

import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { judgePassages, type Passage } from './passages.js';
import { countedParts } from './sentences.js';

/** Words that a sentence may have, after ASD-STE100: what is to be done, and what describes. */
const longest = { act: 20, other: 25 } as const;

interface Facts {
  readonly words: number;
  readonly most: number;
  readonly act: boolean;
}

export default rule({
  id: 'long-sentence',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findLong),
  say: ({ words, most, act }: Facts) => ({
    message: `This sentence has ${words} words; ${act ? 'the act of a step' : 'a sentence'} has at most ${most}`,
    help: act
      ? 'Say one act in few words; put what explains it under `note`, or in the prose below a heading with the id of the step.'
      : 'Cut it into two sentences, or make a list of it.',
    note: 'ASD-STE100 allows 20 words in an instruction and 25 in a description. Labels, terms and numbers with units count as one word.',
  }),
});

function* findLong(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const passage of passages) {
    const act = isAct(passage);
    const most = act ? longest.act : longest.other;
    for (const sentence of passage.sentences) {
      if (sentence.words.length <= most) continue;
      const words = Math.max(...countedParts(passage.hidden, sentence).map((part) => part.length));
      if (words <= most) continue;
      yield { at: spanWithin(passage.source, sentence.start, sentence.end), data: { words, most, act } };
    }
  }
}

function isAct({ role }: Passage): boolean {
  return role === 'step' || role === 'question' || role === 'card';
}

// The act of a step that does not begin with what to do.

import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { isTeller, mainStart } from './acts.js';
import { languageOf } from './languages/languages.js';
import { nameSign } from './names.js';
import { judgePassages, type Passage } from './passages.js';

interface Facts {
  readonly word: string;
  readonly told: boolean;
  readonly language: string;
}

export default rule({
  id: 'act-not-an-order',
  severity: 'hint',
  needs: 'book',
  run: (book) => judgePassages(book, findTold),
  say: ({ word, told, language }: Facts) => ({
    message: told
      ? `This act begins with \`${word}\`: it tells something and orders nothing`
      : `This act begins with \`${word}\`, which names a doing and orders nothing`,
    help: `Begin with what to do, as in \`${language.startsWith('es') ? 'Baje el cabezal.' : 'Lower the header.'}\`; what is seen goes under \`expect\`.`,
    note: 'ASD-STE100: instructions stand in the imperative. A sentence that tells leaves open who does it, and whether it is done already.',
  }),
});

function* findTold(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const { role, language, sentences, hidden, source, step } of passages) {
    const words = role === 'step' ? languageOf(language) : undefined;
    const [sentence] = sentences;
    if (!words || !sentence) continue;
    const first = sentence.words[mainStart(hidden, sentence, words)];
    if (!first || first.text.startsWith(nameSign) || words.passiveOrder.test(hidden)) continue;
    const told = isTeller(first, words);
    // what the second person does may be told: `The driver starts the engine.`
    if (told && step?.by && step.by.value > 1) continue;
    if (!told && !words.isParticiple(words.bare(first.text))) continue;
    yield { at: spanWithin(source, first.start, first.end), data: { word: first.text, told, language } };
  }
}

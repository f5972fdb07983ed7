// The act of a step that does not begin with what to do.

import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { isTeller, mainStart } from './acts.js';
import { languageOf } from './languages/languages.js';
import { nameSign } from './names.js';
import { passagesOf } from './passages.js';

export default rule({
  id: 'act-not-an-order',
  severity: 'hint',
  needs: 'book',
  *run(book) {
    for (const { role, language, sentences, hidden, source, step } of passagesOf(book)) {
      const words = languageOf(language);
      const [sentence] = sentences;
      if (role !== 'step' || !words || !sentence || (step?.by && step.by.value > 1)) continue;
      const first = sentence.words[mainStart(hidden, sentence, words)];
      if (!first || first.text.startsWith(nameSign) || words.passiveOrder.test(hidden)) continue;
      const told = isTeller(first, words);
      if (!told && !words.isParticiple(words.bare(first.text))) continue;
      yield { at: spanWithin(source, first.start, first.end), data: { word: first.text, told, language } };
    }
  },
  say: ({ word, told, language }) => ({
    message: told
      ? `This act begins with \`${word}\`: it tells something and orders nothing`
      : `This act begins with \`${word}\`, which names a doing and orders nothing`,
    help: `Begin with what to do, as in \`${language.startsWith('es') ? 'Baje el cabezal.' : 'Lower the header.'}\`; what is seen goes under \`expect\`.`,
    note: 'ASD-STE100: instructions stand in the imperative. A sentence that tells leaves open who does it, and whether it is done already.',
  }),
});

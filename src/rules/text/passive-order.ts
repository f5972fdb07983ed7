// An order in the passive, which does not say who obeys: `must be lowered`.

import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { languageOf } from './languages/languages.js';
import { judgePassages, type Passage } from './passages.js';

interface Facts {
  readonly words: string;
  readonly language: string;
}

export default rule({
  id: 'passive-order',
  severity: 'hint',
  needs: 'book',
  run: (book) => judgePassages(book, findPassive),
  say: ({ words, language }: Facts) => ({
    message: `\`${words}\` is an order in the passive: it does not say who does it`,
    help: `Order it, as in \`${language.startsWith('es') ? 'Baje el cabezal.' : 'Lower the header.'}\``,
    note: 'ASD-STE100: only the active voice in instructions.',
  }),
});

function* findPassive(passages: readonly Passage[]): Iterable<Finding<Facts>> {
  for (const { role, language, hidden, source } of passages) {
    if (role !== 'step' && role !== 'note' && role !== 'avoid') continue;
    const found = languageOf(language)?.passiveOrder.exec(hidden);
    if (!found) continue;
    const at = spanWithin(source, found.index, found.index + found[0].length);
    yield { at, data: { words: found[0], language } };
  }
}

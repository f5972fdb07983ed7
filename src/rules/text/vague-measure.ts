// A word that says how, and not how much: `slowly`, `a little`.

import { rule } from '../rule.js';
import { judgePassages } from './passages.js';
import { type VagueFacts, vagueJudge } from './vague.js';

const judge = vagueJudge(({ unmeasured }) => unmeasured);

export default rule({
  id: 'vague-measure',
  severity: 'hint',
  needs: 'book',
  run: (book) => judgePassages(book, judge),
  say: ({ word, instead }: VagueFacts) => ({
    message: `\`${word}\` says how, and not how much`,
    help: `Write ${instead}, if it matters; else leave the word out.`,
    note: 'Guidance on written procedures asks for quantities in place of words such as `slowly`.',
  }),
});

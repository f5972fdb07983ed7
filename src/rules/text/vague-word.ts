// A word that leaves to the reader what is right: `properly`, `as needed`.

import { rule } from '../rule.js';
import { judgePassages } from './passages.js';
import { type VagueFacts, vagueJudge } from './vague.js';

const judge = vagueJudge(({ vague }) => vague);

export default rule({
  id: 'vague-word',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, judge),
  say: ({ word, instead }: VagueFacts) => ({
    message: `\`${word}\` does not say what is right, and two readers decide it differently`,
    help: `Write ${instead}, or leave the word out.`,
    note: 'Guidance on written procedures asks for what can be seen or measured in place of words such as `properly`.',
  }),
});

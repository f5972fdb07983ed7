// A word that says how, and not how much: `slowly`, `a little`.

import { rule } from '../rule.js';
import { findVague } from './vague.js';

export default rule({
  id: 'vague-measure',
  severity: 'hint',
  needs: 'book',
  run: (book) => findVague(book, ({ unmeasured }) => unmeasured),
  say: ({ word, instead }) => ({
    message: `\`${word}\` says how, and not how much`,
    help: `Write ${instead}, if it matters; else leave the word out.`,
    note: 'Guidance on written procedures asks for quantities in place of words such as `slowly`.',
  }),
});

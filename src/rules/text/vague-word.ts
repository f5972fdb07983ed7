// A word that leaves to the reader what is right: `properly`, `as needed`.

import { rule } from '../rule.js';
import { findVague } from './vague.js';

export default rule({
  id: 'vague-word',
  severity: 'warning',
  needs: 'book',
  run: (book) => findVague(book, ({ vague }) => vague),
  say: ({ word, instead }) => ({
    message: `\`${word}\` does not say what is right, and two readers decide it differently`,
    help: `Write ${instead}, or leave the word out.`,
    note: 'Guidance on written procedures asks for what can be seen or measured in place of words such as `properly`.',
  }),
});

// A value whose last reading may have failed where the work counts as done.

import { rule } from '../rule.js';
import { readingFaultsOf, valueNames } from './readings.js';
import { sayOf } from './violation.js';
import { endWords } from './words.js';

export default rule({
  id: 'failed-value-at-done',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => readingFaultsOf('value-not-passed-at-done', proof, context),
  say: ({ violation, values }) =>
    sayOf(violation, {
      message: `A reading of ${valueNames(values)} outside its limits leads on to ${endWords(violation)}`,
      help: `Let the branch lead to \`stop\` or \`call-service\`, or add a step that reads ${valueNames(values)} once more on the way to \`done\`.`,
      note: '`done` says that all is well, and the machine goes to work.',
    }),
});

// A step whose needs may not hold when it begins.

import { rule } from '../rule.js';
import { sayOf, violationsOf } from './violation.js';
import { missingWords, where } from './words.js';

export default rule({
  id: 'need-not-met',
  severity: 'error',
  needs: 'proof',
  run: (proof, context) => violationsOf('need-not-met', proof, context),
  say: (violation) =>
    sayOf(violation, {
      message: `At ${where(violation)} ${missingWords(violation.missing)}`,
      help: 'Add a step before it that brings this about, or require it at the start.',
    }),
});

// A hand-held instrument without a place where a person stands to read it.

import { rule } from '../rule.js';
import { grouped, sayOf, violationsOf } from './violation.js';
import { capital, code, listed, where } from './words.js';

export default rule({
  id: 'instrument-out-of-reach',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    const person = context.resolved.world.variables.find(({ id }) => id === 'person');
    // A value that several steps read is mended in one place.
    for (const [first] of grouped(violationsOf('instrument-place', proof, context), ({ data }) => data.value ?? ''))
      if (first) yield { ...first, data: { violation: first.data, places: person?.values ?? [] } };
  },
  say: ({ violation, places }) => {
    const value = code(violation.value ?? '');
    const among = places.length > 0 ? `: ${listed(places.map(code), 'or')}` : '';
    return sayOf(violation, {
      message: `${capital(where(violation))} reads ${value} with an instrument that somebody holds, and nothing says where they stand`,
      help: `Say \`read-at\` for ${value}, or for the instrument, with the place where that person is${among}.`,
      note: 'Whether a person may stand there is then proved against the safety rules.',
    });
  },
});

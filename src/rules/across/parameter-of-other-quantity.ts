// A parameter that measures something else on one machine or header than on the others.

import { describeDimension } from '../../calc/dimension.js';
import { rule } from '../rule.js';
import { byDimension, parameterFamilies } from './siblings.js';

export default rule({
  id: 'parameter-of-other-quantity',
  severity: 'error',
  needs: 'book',
  *run(book) {
    for (const { id, among, members } of parameterFamilies(book)) {
      const [usual = [], ...others] = byDimension(members);
      const [first] = usual;
      if (!first) continue;
      for (const member of others.flat()) {
        const related = usual.map(({ of, text, at }) => ({ message: `${text} for \`${of}\``, at }));
        const is = describeDimension(member.limits.unit.dimension);
        const expected = describeDimension(first.limits.unit.dimension);
        yield { at: member.at, related, data: { id, of: member.of, among, text: member.text, is, expected } };
      }
    }
  },
  say: ({ id, of, among, text, is, expected }) => ({
    message: `Unexpected ${is} for \`${id}\` of \`${of}\`, ${text}; expected ${expected}, as on other ${among}`,
    help: 'Mend the unit; or give one of the two another name, if they are not the same thing.',
    note: 'One name means one thing in a book: a procedure that names it is written once for all of them.',
  }),
});

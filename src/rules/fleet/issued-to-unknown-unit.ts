// A card of the register that was issued for a unit which the fleet does not have.

import { rule } from '../rule.js';

export default rule({
  id: 'issued-to-unknown-unit',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const known = book.fleet.map(({ id }) => id.value);
    for (const { unit, code } of book.issued) {
      if (!unit || known.includes(unit.value)) continue;
      yield { at: unit.at, data: { unit: unit.value, code: code.value } };
    }
  },
  say: ({ unit, code }) => ({
    message: `The card \`${code}\` was issued for \`${unit}\`, which \`fleet.yaml\` does not have`,
    help: 'Mend the id, or take the card back and its line out of the register.',
    note: 'Whether a card is right for a unit can only be told of one that is known.',
  }),
});

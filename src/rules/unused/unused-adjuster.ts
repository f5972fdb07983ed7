// An adjuster that no step turns.

import { rule } from '../rule.js';
import { hasWrongName } from './used.js';

export default rule({
  id: 'unused-adjuster',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    if (hasWrongName(procedure)) return;
    const used = new Set(procedure.steps.flatMap(({ adjust }) => adjust.map(({ value }) => value)));
    for (const { id, idAt } of procedure.adjusters) if (!used.has(id)) yield { at: idAt, data: id };
  },
  say: (id) => ({
    message: `No step turns \`${id}\``,
    help: `Add \`adjust: ${id}\` to the step where it is turned, or take the adjuster out.`,
  }),
});

// A check value that no step measures and nothing else names.

import { rule } from '../rule.js';
import { hasWrongName, usedReadings } from './used.js';

export default rule({
  id: 'unused-value',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    if (hasWrongName(procedure)) return;
    const used = usedReadings(procedure);
    for (const { id, idAt } of procedure.values) if (!used.has(id)) yield { at: idAt, data: id };
  },
  say: (id) => ({
    message: `No step measures \`${id}\``,
    help: `Add \`measure: ${id}\` to the step where it is read, or take the value out.`,
    note: 'A value that nobody reads looks checked on the page and is not.',
  }),
});

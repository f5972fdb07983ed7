// A worksheet that no step fills in.

import { rule } from '../rule.js';
import { hasWrongName, usedReadings } from './used.js';

export default rule({
  id: 'unused-worksheet',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    if (hasWrongName(procedure)) return;
    const used = usedReadings(procedure);
    for (const { id, idAt } of procedure.worksheets) if (!used.has(id)) yield { at: idAt, data: id };
  },
  say: (id) => ({
    message: `No step fills in the worksheet \`${id}\``,
    help: `Add \`measure: ${id}\` to the step where it is filled in, or take the worksheet out.`,
  }),
});

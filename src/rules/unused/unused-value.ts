// A check value that no step measures and nothing else names.

import { rule } from '../rule.js';
import { hasWrongName, readingsInWork, usedReadings } from './used.js';

export default rule({
  id: 'unused-value',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    if (hasWrongName(procedure)) return;
    const used = usedReadings(procedure);
    const named = readingsInWork(procedure);
    const measured = new Set(procedure.steps.flatMap(({ measure }) => measure.map(({ value }) => value)));
    for (const { id, idAt, from, limits, readWith } of procedure.values) {
      // What has limits, and is worked out or read, is there to decide: a text that shows it decides nothing.
      const isUsed = limits && from ? measured.has(id) : limits && readWith ? named.has(id) : used.has(id);
      if (!isUsed) yield { at: idAt, data: id };
    }
  },
  say: (id) => ({
    message: `No step measures \`${id}\``,
    help: `Add \`measure: ${id}\` to the step where it is read, or take the value out.`,
    note: 'A value that nobody reads looks checked on the page and is not.',
  }),
});

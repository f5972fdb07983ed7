// A trial on a machine that the procedure is not for, or told twice for one machine.

import type { Procedure } from '../../model/procedure.js';
import { rule } from '../rule.js';

export default rule({
  id: 'verified-elsewhere',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { resolved, book, isPart }) {
    const rigs = resolved.variants.filter((one) => one.procedure.id === procedure.id).flatMap((one) => one.rigs);
    const machines = new Set(rigs.map(({ machine }) => machine));
    // a machine that was not asked for, or whose file cannot be read, has no rigs either
    const isWhole = !isPart && book.unread.size === 0;
    for (const [index, { machine }] of procedure.verified.entries()) {
      const before = procedure.verified.slice(0, index).find((one) => isSameTrial(one, procedure.verified[index]));
      if (isWhole && machines.size > 0 && !machines.has(machine.value)) {
        yield {
          at: machine.at,
          related: [{ message: 'what it applies to', at: procedure.applies.at }],
          data: { machine: machine.value, twice: false },
        };
      } else if (before) {
        yield {
          at: machine.at,
          related: [{ message: 'the first time', at: before.machine.at }],
          data: { machine: machine.value, twice: true },
        };
      }
    }
  },
  say: ({ machine, twice }) => ({
    message: twice
      ? `\`${machine}\` is said twice to have been tried in the same way`
      : `\`${machine}\` is said to have been tried, and the procedure applies to none`,
    help: 'Mend the machine, or take the entry out; or, if the procedure is for it, mend `applies`, or what the file of the machine says of its headers and options.',
    note: 'What was tried on one machine says nothing of another.',
  }),
});

type Trial = Procedure['verified'][number];

function isSameTrial(a: Trial, b: Trial | undefined): boolean {
  return (
    a.machine.value === b?.machine.value &&
    (a.how.value === b.how.value || a.how.value === 'both' || b.how.value === 'both')
  );
}

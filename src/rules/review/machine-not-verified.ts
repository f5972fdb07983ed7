// A machine that a released procedure has never been tried on.

import type { Rig, Variant } from '../../model/resolved.js';
import { rule } from '../rule.js';

export default rule({
  id: 'machine-not-verified',
  severity: 'hint',
  needs: 'variant',
  *run({ procedure, rigs }: Variant) {
    if (procedure.status !== 'released') return;
    const tried = new Set(procedure.source.verified.map(({ machine }) => machine.value));
    const untried = [...new Set(rigs.map(({ machine }: Rig) => machine))].filter((machine) => !tried.has(machine));
    for (const machine of untried) yield { at: procedure.source.status.at, data: { machine } };
  },
  say: ({ machine }) => ({
    message: `Nobody has tried it on \`${machine}\``,
    help: `Try it there, then add \`- { machine: ${machine}, how: on-machine, by: …, on: … }\` to \`verified\`.`,
    note: 'What was tried on one machine says nothing of another.',
  }),
});

// A machine that a released procedure has never been tried on.

import type { Rig, Variant } from '../../model/resolved.js';
import { rule } from '../rule.js';

export default rule({
  id: 'machine-not-verified',
  severity: 'hint',
  needs: 'variant',
  *run({ procedure, rigs }: Variant) {
    if (procedure.status !== 'released') return;
    const { verified } = procedure.source;
    const tried = new Set(verified.flatMap(({ machine, how }) => (how.value === 'desk' ? [] : machine.value)));
    const untried = [...new Set(rigs.map(({ machine }: Rig) => machine))].filter((machine) => !tried.has(machine));
    for (const machine of untried) {
      const desk = verified.find((one) => one.machine.value === machine);
      yield { at: desk?.how.at ?? procedure.source.status.at, data: { machine, atDesk: desk !== undefined } };
    }
  },
  say: ({ machine, atDesk }) => ({
    message: `This procedure is released, and nobody has tried it on \`${machine}\`${atDesk ? ' itself, only at the desk' : ''}`,
    help: atDesk
      ? 'Try it there, then write `how: both` here, with who did it and when.'
      : `Try it there, then add \`- { machine: ${machine}, how: on-machine, by: …, on: … }\` to \`verified\`.`,
    note: 'What was tried on one machine says nothing of another.',
  }),
});

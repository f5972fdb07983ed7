// An order proof that met its bound.

import type { ResolvedBranch, ResolvedProcedure } from '../../model/resolved.js';
import { rule } from '../rule.js';

export default rule({
  id: 'not-proved',
  severity: 'error',
  needs: 'proof',
  *run({ variant: { procedure }, result }) {
    if (result.complete) return;
    const group = Math.max(0, ...procedure.anyOrder.map(({ length }) => length));
    const count = Math.max(0, ...procedure.steps.flatMap(branchesOf).flatMap(({ atMost }) => atMost ?? []));
    yield { at: procedure.source.title.at, data: { explored: result.explored, group, count } };
  },
  say: ({ explored, group, count }) => ({
    message: `The order of steps is not proved: there are more than ${thousands(explored)} states to look at`,
    help: helpOf(group, count),
    note: 'What is not proved is not built: a fault may hide in what was not looked at.',
  }),
});

/** More steps in any order, or more turns of a loop, are likely what makes the states so many. */
const manySteps = 8;
const manyTurns = 20;

function helpOf(group: number, count: number): string {
  if (group >= manySteps)
    return `Give some of the ${group} steps under \`any-order\` an order, or cut them into smaller groups.`;
  if (count >= manyTurns) return `Lower \`at-most: ${count}\` to what somebody would really do.`;
  return 'Cut the procedure in two, or require more at the start so that less is unknown.';
}

function branchesOf({ otherwise, when, answers, then }: ResolvedProcedure['steps'][number]): readonly ResolvedBranch[] {
  const first = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  return first.flatMap((branch) => {
    const levels: ResolvedBranch[] = [];
    for (let level = branch; level; level = level.otherwise) levels.push(level);
    return levels;
  });
}

// How many there are to look at before it stops is no promise: rounded down.
function thousands(explored: number): string {
  return explored < 1000 ? String(explored) : `${Math.floor(explored / 1000)} 000`;
}

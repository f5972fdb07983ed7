// What a person is to look at while turning, and the turning does not move.

import { namesIn } from '../../calc/expression/names.js';
import type { Procedure } from '../../model/procedure.js';
import { rule } from '../rule.js';

export default rule({
  id: 'watch-not-moved',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    for (const { id, watch, moves } of procedure.adjusters) {
      const moved = new Set(moves.map(({ value }) => value.value));
      if (!watch || moved.size === 0 || !procedure.values.some((value) => value.id === watch.value)) continue;
      if (!follows(watch.value, moved, procedure)) yield { at: watch.at, data: { id, watch: watch.value } };
    }
  },
  say: ({ id, watch }) => ({
    message: `\`${watch}\` is watched while \`${id}\` is turned, and does not move with it`,
    help: `Name a value that \`${id}\` moves; or, if it does move \`${watch}\`, say by how much under \`moves\`.`,
    note: 'Whoever turns would wait for a number that stands still.',
  }),
});

/** Whether a value is moved itself, or worked out from one that is. */
function follows(id: string, moved: ReadonlySet<string>, { values }: Procedure, seen: readonly string[] = []): boolean {
  if (moved.has(id)) return true;
  if (seen.includes(id)) return false;
  const from = values.find((value) => value.id === id)?.from;
  const inputs = from ? namesIn(from.expr).map(({ path }) => path.replaceAll('-', '_')) : [];
  return inputs.some((input) => follows(input, moved, { values } as Procedure, [...seen, id]));
}

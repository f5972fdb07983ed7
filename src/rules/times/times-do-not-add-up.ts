// A time in all that is not the sum of its parts.

import { formatLimits } from '../../calc/display.js';
import type { Limits } from '../../calc/limits.js';
import { add, compare } from '../../calc/rational.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import type { NumberChoice, WrittenLimits } from '../../model/numbers.js';
import { rule } from '../rule.js';

export default rule({
  id: 'times-do-not-add-up',
  severity: 'error',
  needs: 'procedure',
  *run({ time }) {
    const total = timeIn(time?.total);
    const parts = [timeIn(time?.handsOn), timeIn(time?.waiting)];
    const [hands, waiting] = parts;
    if (!total || !hands || !waiting) return;
    const isSum =
      sameSum([hands.limits.low, waiting.limits.low], total.limits.low) &&
      sameSum([hands.limits.high, waiting.limits.high], total.limits.high);
    if (isSum) return;
    const related = [
      { message: 'hands on', at: hands.written.source.at },
      { message: 'waiting', at: waiting.written.source.at },
    ];
    const said = [hands, waiting, total].map(({ limits }) => formatLimits(limits));
    yield {
      at: total.written.source.at,
      related,
      data: { hands: said[0] ?? '', waiting: said[1] ?? '', total: said[2] ?? '' },
    };
  },
  say: ({ hands, waiting, total }) => ({
    message: `${hands} hands on and ${waiting} of waiting do not make ${total} in all`,
    help: 'Mend whichever of the three is wrong.',
    note: 'A time is given three ways so that a slip in one of them is noticed.',
  }),
});

interface Time {
  readonly written: WrittenLimits;
  readonly limits: Limits;
}

/** A time that is the same for every rig; one with a name in it is not looked at. */
function timeIn(choice: NumberChoice | undefined): Time | undefined {
  if (choice?.kind !== 'one') return undefined;
  const found = resolveLimits(choice.value.expr, () => undefined);
  return found.ok ? { written: choice.value, limits: found.value } : undefined;
}

function sameSum(parts: readonly Limits['low'][], sum: Limits['low']): boolean {
  const [a, b] = parts;
  return a !== undefined && b !== undefined && sum !== undefined && compare(add(a, b), sum) === 0;
}

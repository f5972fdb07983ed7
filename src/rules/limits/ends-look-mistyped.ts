// Limits on both sides of zero whose ends are one number, but for a slip of the hand.

import type { Expr, LimitsExpr } from '../../calc/expression/ast.js';
import type { WrittenLimits } from '../../model/numbers.js';
import type { Procedure } from '../../model/procedure.js';
import { leavesOf } from '../../model/walk.js';
import { rule } from '../rule.js';

export default rule({
  id: 'ends-look-mistyped',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    for (const { expr, source } of limitsIn(procedure)) {
      const ends = endsOf(source.value, expr);
      if (!ends || !isSlip(ends.low, ends.high)) continue;
      yield { at: source.at, data: { text: source.value.trim(), ...ends } };
    }
  },
  say: ({ text, low, high }) => ({
    message: `The ends of \`${text}\` are as far as \`${low}\` below and \`${high}\` above zero, which look like one number mistyped`,
    help: `Write the same number twice, or waive this with the reason why the sides differ.`,
    note: 'One digit changed, two exchanged, or a point moved makes one of these numbers from the other.',
  }),
});

function* limitsIn({ values, adjusters, worksheets }: Procedure): Iterable<WrittenLimits> {
  for (const { limits } of values) if (limits) yield* leavesOf(limits);
  for (const { range } of adjusters) if (range) yield* leavesOf(range);
  for (const { columns, results } of worksheets) {
    for (const { limits } of [...columns, ...results]) if (limits) yield* leavesOf(limits);
  }
}

interface Ends {
  readonly low: string;
  readonly high: string;
}

/** The digits of both ends, where a plain number stands on each side of zero. */
function endsOf(text: string, limits: LimitsExpr): Ends | undefined {
  if (limits.kind !== 'range') return undefined;
  const part = ({ start, end }: Expr): string => text.slice(start, end);
  const low = /^-\s*(\d+(?:\.\d+)?)/.exec(part(limits.low))?.[1];
  const high = /^(\d+(?:\.\d+)?)/.exec(part(limits.high))?.[1];
  return low !== undefined && high !== undefined ? { low, high } : undefined;
}

/** Whether one slip of the hand makes one number of the other. */
function isSlip(a: string, b: string): boolean {
  if (Number(a) === Number(b)) return false;
  const digits = (text: string): string => text.replace('.', '').replace(/^0+/, '').replace(/0+$/, '');
  if (digits(a) === digits(b)) return true;
  if (a.length !== b.length) return false;
  const differ = [...a].flatMap((sign, i) => (sign === b[i] ? [] : [i]));
  if (differ.length === 1) return true;
  const [i = 0, j = 0] = differ;
  const between = a.slice(i + 1, j);
  return differ.length === 2 && a[i] === b[j] && a[j] === b[i] && between.replace('.', '') === '';
}

// Limits on both sides of zero whose ends are one number, but for a slip of the hand.

import type { Expr, LimitsExpr } from '../../calc/expression/ast.js';
import type { Book, Header, Machine } from '../../model/book.js';
import type { WrittenLimits } from '../../model/numbers.js';
import type { Procedure } from '../../model/procedure.js';
import { leavesOf } from '../../model/walk.js';
import { rule } from '../rule.js';

export default rule({
  id: 'ends-look-mistyped',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const { expr, source } of limitsIn(book)) {
      const ends = endsOf(source.value, expr);
      if (!ends || isPoint(source.value) || !isSlip(ends, source.value)) continue;
      yield { at: source.at, data: { text: source.value.trim(), ...ends } };
    }
  },
  say: ({ text, low, high }) => ({
    message: `The ends of \`${text}\` are as far as \`${low}\` below and \`${high}\` above zero, which look like one number mistyped`,
    help: `Write the same number twice, or waive this with the reason why the sides differ.`,
    note: 'One digit changed, two exchanged, or a point moved makes one of these numbers from the other.',
  }),
});

function* limitsIn({ procedures, machines, headers }: Book): Iterable<WrittenLimits> {
  for (const holder of [...machines.values(), ...headers.values()]) yield* limitsOfParameters(holder);
  for (const procedure of procedures.values()) yield* limitsOfProcedure(procedure);
}

/** Those of the parameters that nothing else says: an `agree` tells of itself whether the two ends are right. */
function* limitsOfParameters({ parameters, agree }: Machine | Header): Iterable<WrittenLimits> {
  const agreed = new Set(agree.map(({ that }) => that.source.value.trim()));
  for (const { id, value } of parameters.values()) if (!agreed.has(id)) yield* leavesOf(value);
}

function* limitsOfProcedure({ values, adjusters, worksheets }: Procedure): Iterable<WrittenLimits> {
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

/** Whether the limits are of a temperature: its zero is no middle that things are off from. */
function isPoint(text: string): boolean {
  return /°|deg[CF]\b/.test(text);
}

/** Whether one slip of the hand makes one number of the other. */
function isSlip({ low: a, high: b }: Ends, text: string): boolean {
  if (Number(a) === Number(b)) return false;
  const digits = (number: string): string => number.replace('.', '').replace(/^0+/, '').replace(/0+$/, '');
  if (digits(a) === digits(b)) return true;
  if (a.length !== b.length) return false;
  const differ = [...a].flatMap((sign, i) => (sign === b[i] ? [] : [i]));
  const [i = 0, j = 0] = differ;
  if (differ.length === 1) {
    // of one digit alone any other is as near: `-2 to 3 psi` may be meant, and an error in percent is given by one number
    if (Math.max(digits(a).length, digits(b).length) === 1) return text.includes('%');
    return areNeighbours(Number(a[i]), Number(b[i]));
  }
  const between = a.slice(i + 1, j);
  return differ.length === 2 && a[i] === b[j] && a[j] === b[i] && between.replace('.', '') === '';
}

/** Whether two digits lie side by side on a keyboard: `-10 to 15` was no finger that missed. */
function areNeighbours(one: number, two: number): boolean {
  const apart = Math.abs(one - two);
  return apart === 1 || apart === 9;
}

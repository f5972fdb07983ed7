// A value that is worked out from one thing twice, where two were meant: `mean(left, left)`, `max(error) - max(error)`.

import type { Expr } from '../../calc/expression/ast.js';
import { namesIn, partsOf } from '../../calc/expression/names.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'argument-twice',
  severity: 'warning',
  needs: 'procedure',
  *run({ values, worksheets }) {
    const froms = [
      ...values.map(({ id, from }) => [id, from] as const),
      ...worksheets.flatMap(({ columns, results }) =>
        [...columns, ...results].map(({ id, from }) => [id, from] as const),
      ),
    ];
    const told = new Set<number>();
    for (const [id, from] of froms) {
      const twice = from && twiceIn(from.expr);
      if (!twice || told.has(from.source.at.start)) continue;
      told.add(from.source.at.start);
      yield {
        at: spanWithin(from.source, twice.start, twice.end),
        data: { id, name: textOf(twice, from), by: twice.by },
      };
    }
  },
  say: ({ id, name, by }) => ({
    message: `\`${id}\` is worked out from \`${name}\` and \`${name}\` again, by \`${by}\``,
    help: 'Name the other value that was meant, or leave the second out.',
    note: 'Both sides of a machine are measured, and one of them is then judged by nothing.',
  }),
});

interface Twice {
  readonly start: number;
  readonly end: number;
  readonly by: string;
}

const gathering: ReadonlySet<string> = new Set(['min', 'max', 'mean', 'sum']);

function twiceIn(expr: Expr): Twice | undefined {
  const [parts, by] =
    expr.kind === 'call' && gathering.has(expr.name)
      ? [expr.args, expr.name]
      : expr.kind === 'binary' && (expr.op === '-' || expr.op === '/')
        ? [[expr.left, expr.right], expr.op]
        : [[], ''];
  const again = parts.find((part, i) => namesIn(part).length > 0 && parts.findIndex((one) => isSame(one, part)) < i);
  if (again) return { start: again.start, end: again.end, by };
  for (const part of partsOf(expr)) {
    const found = twiceIn(part);
    if (found) return found;
  }
  return undefined;
}

/** Whether two parts are written alike, wherever they stand. */
function isSame(one: Expr, other: Expr): boolean {
  return written(one) === written(other);
}

function written(expr: Expr): string {
  return JSON.stringify(expr, (key, value: unknown) => {
    if (key === 'start' || key === 'end') return undefined;
    return typeof value === 'bigint' ? String(value) : value;
  });
}

function textOf({ start, end }: Twice, { source }: WrittenExpr): string {
  return source.value.slice(start, end);
}

// A value that is worked out from one value twice, where two were meant: `mean(left, left)`, `left - left`.

import type { Expr } from '../../calc/expression/ast.js';
import { partsOf } from '../../calc/expression/names.js';
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
  const again = parts.find((part, i) => part.kind === 'name' && parts.findIndex((one) => isName(one, part)) < i);
  if (again) return { start: again.start, end: again.end, by };
  for (const part of partsOf(expr)) {
    const found = twiceIn(part);
    if (found) return found;
  }
  return undefined;
}

function isName(one: Expr, other: Expr): boolean {
  return one.kind === 'name' && other.kind === 'name' && one.path === other.path;
}

function textOf({ start, end }: Twice, { source }: WrittenExpr): string {
  return source.value.slice(start, end);
}

// An adjuster that moves what a value is worked out from so that the value stays what it is, and that a failing one leads to.

import type { Enclosure } from '../../calc/enclosure.js';
import type { Expr } from '../../calc/expression/ast.js';
import { evaluate } from '../../calc/expression/evaluate.js';
import { namesIn } from '../../calc/expression/names.js';
import { add, equals, type Rational, rational } from '../../calc/rational.js';
import type { ResolvedAdjuster, ResolvedProcedure, ResolvedValue } from '../../model/resolved.js';
import { rule } from '../rule.js';

export default rule({
  id: 'adjuster-cancels-out',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const value of procedure.values) {
      for (const adjuster of value.tolerance ? procedure.adjusters : []) {
        if (!isSentTo(value.id, adjuster.id, procedure) || !staysWhatItIs(value, adjuster)) continue;
        const moved = (value.derived?.inputs ?? []).filter((id) => adjuster.moves.has(id));
        const effects = adjuster.source.moves.filter((move) => moved.includes(move.value.value));
        const at = effects.at(-1)?.at ?? adjuster.source.idAt;
        const related = value.source.from
          ? [{ message: `\`${value.id}\` is worked out here`, at: value.source.from.source.at }]
          : [];
        yield { at, related, data: { adjuster: adjuster.id, value: value.id, moved } };
      }
    }
  },
  say: ({ adjuster, value, moved }) => ({
    message: `A failing \`${value}\` leads to \`${adjuster}\`, and no turn of that changes it: what it does to ${moved
      .map((id) => `\`${id}\``)
      .join(' and ')} cancels out`,
    help: 'Look at the signs of the effects in `moves`: one may be lost. If they are right, send it to something that moves it.',
    note: 'A person would turn and read again without end.',
  }),
});

/** Whether a failing reading of the value leads straight to a step that turns the adjuster. */
function isSentTo(value: string, adjuster: string, { steps }: ResolvedProcedure): boolean {
  return steps.some(
    ({ measure, when }) =>
      measure.includes(value) &&
      [...when.values()].some(({ go }) => steps.find(({ id }) => id === go)?.adjust.includes(adjuster)),
  );
}

/** Whether a turn moves two inputs at least of a value that is worked out, and leaves the value where it was. */
function staysWhatItIs({ derived }: ResolvedValue, { moves }: ResolvedAdjuster): boolean {
  if (!derived || derived.inputs.filter((id) => moves.has(id)).length < 2) return false;
  // a parameter in it, or an effect that is a range: nothing is sure
  if (namesIn(derived.expr).some(({ path }) => !derived.inputs.includes(path))) return false;
  if ([...moves.values()].some(({ low, high }) => !equals(low, high))) return false;
  return [rational(1), rational(7)].every((start) => {
    const before = valueAt(derived.expr, derived.inputs, (i) => rational(BigInt(i + 2) * start.num));
    const after = valueAt(derived.expr, derived.inputs, (i, id) =>
      add(rational(BigInt(i + 2) * start.num), moves.get(id)?.low ?? rational(0)),
    );
    return (
      before !== undefined && after !== undefined && equals(before.low, after.low) && equals(before.high, after.high)
    );
  });
}

function valueAt(
  expr: Expr,
  inputs: readonly string[],
  at: (index: number, id: string) => Rational,
): Enclosure | undefined {
  const found = evaluate(expr, (path) => {
    const index = inputs.indexOf(path);
    if (index < 0) return undefined;
    const value = at(index, path);
    return { low: value, high: value };
  });
  return found.ok ? found.value : undefined;
}

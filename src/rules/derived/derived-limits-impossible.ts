// A derived value that can never pass once its inputs do.

import { compare, negate } from '../../calc/rational.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { judgeDerived, type Verdict } from './ranges.js';
import { derivedFacts, derivedPlaces, sayInputs } from './words.js';

export default rule({
  id: 'derived-limits-impossible',
  severity: 'error',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    for (const kind of ['tolerance', 'acceptance'] as const) {
      const verdict = judgeDerived(value, procedure, kind);
      if (!verdict?.impossible) continue;
      const facts = { ...derivedFacts(value, verdict), kind };
      const from = procedure.source.values.find(({ id }) => id === value.id)?.from;
      const places = derivedPlaces(value, procedure.values, kind);
      const turned = from && turnedRound(from, verdict);
      if (from && turned !== undefined) {
        const { source } = from;
        const related = [{ message: 'its limits', at: value.limitsAt }, ...places];
        yield { at: spanWithin(source, from.expr.start, from.expr.end), related, data: { ...facts, turned } };
      } else yield { at: value.limitsAt, related: places, data: { ...facts, turned } };
      return;
    }
  },
  say: ({ id, limits, range, inputs, kind, turned }) => ({
    message: `\`${id}\` can never be ${limits}${kind === 'acceptance' ? ', its limits in use' : ''}: with ${sayInputs(inputs)} inside their limits it comes to ${range}`,
    help:
      turned === undefined
        ? 'Mend the limits of the derived value, or of what it is worked out from: one of them is a slip.'
        : `Write \`${turned}\`: the two stand the wrong way round. Or mend the sign of its limits.`,
    note: 'Every machine would fail, also a good one.',
  }),
});

/** `b - a` for `a - b`, where that comes to what the limits ask for. */
function turnedRound({ expr, source }: WrittenExpr, { range: { outer }, limits }: Verdict): string | undefined {
  if (expr.kind !== 'binary' || expr.op !== '-') return undefined;
  if (expr.left.kind !== 'name' || expr.right.kind !== 'name') return undefined;
  const [low, high] = [negate(outer.high), negate(outer.low)];
  if ((limits.low && compare(high, limits.low) < 0) || (limits.high && compare(low, limits.high) > 0)) return undefined;
  const [left, right] = [expr.left, expr.right].map(({ start, end }) => source.value.slice(start, end));
  return `${right} - ${left}`;
}

// Limits as written that only one value keeps: a lone number, or a range from a number to itself.

import type { Limits } from '../../calc/limits.js';
import { compare } from '../../calc/rational.js';
import type { NumberChoice } from '../../model/numbers.js';
import { leavesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'limits-of-one-value',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure: { values, worksheets } }) {
    for (const { id, source, tolerance } of values) {
      const at = tolerance && lonePlace(source.limits, tolerance);
      if (at) yield { at, data: { id } };
    }
    for (const { source, results } of worksheets) {
      for (const { id, limits } of results) {
        const at = limits && lonePlace(source.results.find((result) => result.id === id)?.limits, limits);
        if (at) yield { at, data: { id } };
      }
    }
  },
  say: ({ id }) => ({
    message: `Only one value keeps the limits of \`${id}\``,
    help: 'Write a range, or a number with its tolerance: `74 to 76 mm`, `75 ± 1 mm`.',
    note: 'No reading is exact: JCGM 106 judges it by an interval of permissible values.',
  }),
});

/** Where such limits are written. A name is left alone: what a display must show may be one number. */
function lonePlace(written: NumberChoice | undefined, limits: Limits): Span | undefined {
  if (!written || !limits.low || !limits.high || compare(limits.low, limits.high) !== 0) return undefined;
  const lone = [...leavesOf(written)].find(
    ({ expr }) =>
      expr.kind === 'range' || (expr.kind === 'single' && expr.of.kind === 'number' && expr.of.unit !== undefined),
  );
  return lone?.source.at;
}

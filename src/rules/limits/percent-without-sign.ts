// Limits of a share that are written without `%`, and so are a hundred times as wide.

import type { Limits } from '../../calc/limits.js';
import { absolute, compare, one } from '../../calc/rational.js';
import { rule } from '../rule.js';

export default rule({
  id: 'percent-without-sign',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure: { values, worksheets } }) {
    for (const { id, unit, source, tolerance, limitsAt } of values) {
      if (isSlip(source.unit?.value ?? unit.symbol, tolerance)) yield { at: limitsAt, data: { id } };
    }
    for (const { source, results } of worksheets) {
      for (const { id, limits } of results) {
        const written = source.results.find((result) => result.id === id);
        const unit =
          written?.unit?.value ??
          source.columns.find((column) => written?.from.source.value.includes(column.id))?.unit?.value;
        const at = written?.limits?.at;
        if (at && isSlip(unit ?? '', limits)) yield { at, data: { id } };
      }
    }
  },
  say: ({ id }) => ({
    message: `\`${id}\` is shown in %, and its limits have no \`%\`: they are shares, a hundred times as much`,
    help: 'Write the sign behind the number: `at most 2.5 %`. A share is written as such: `at most 0.025`.',
  }),
});

function isSlip(unit: string, limits: Limits | undefined): boolean {
  if (unit !== '%' || !limits || limits.unit.symbol !== '') return false;
  return [limits.low, limits.high].some((end) => end !== undefined && compare(absolute(end), one) >= 0);
}

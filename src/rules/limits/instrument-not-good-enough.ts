// Simple acceptance with an instrument that is not much better than the tolerance.

import { formatQuantity } from '../../calc/display.js';
import { add, compare, divide, rational, subtract, toNumber } from '../../calc/rational.js';
import { asDifference } from '../../calc/unit.js';
import { rule } from '../rule.js';

const least = rational(4);

export default rule({
  id: 'instrument-not-good-enough',
  severity: 'warning',
  needs: 'value',
  *run({ value }) {
    const { decision, tolerance, uncertainty, instrument } = value;
    if (decision !== 'simple' || !instrument || !tolerance?.low || !tolerance.high) return;
    if (!uncertainty?.low || !uncertainty.high) return;
    const both = add(uncertainty.low, uncertainty.high);
    if (both.num <= 0n) return;
    const width = subtract(tolerance.high, tolerance.low);
    const ratio = divide(width, both);
    if (compare(ratio, least) >= 0) return;
    yield {
      at: value.limitsAt,
      related: [
        { message: `the accuracy of \`${instrument.id}\``, at: instrument.source.accuracy?.at ?? instrument.source.at },
      ],
      data: {
        id: value.id,
        instrument: instrument.id,
        ratio: Math.floor(toNumber(ratio) * 10) / 10,
        limits: value.shown.tolerance,
        uncertainty: formatQuantity(
          divide(both, rational(2)),
          { unit: asDifference(tolerance.unit), resolution: divide(tolerance.resolution, rational(10)) },
          'up',
        ),
      },
    };
  },
  say: ({ id, instrument, ratio, limits, uncertainty }) => ({
    message: `The limits ${limits} of \`${id}\` are ${ratio} times as wide as ± ${uncertainty}, the uncertainty of \`${instrument}\`, expected at least 4 times under \`decision: simple\``,
    help: 'Decide by `guarded`, read it with a better instrument, or widen the limits if they may be wider.',
    note: 'ANSI/NCSL Z540.3 asks for a test uncertainty ratio of 4 where the uncertainty does not enter the decision.',
  }),
});

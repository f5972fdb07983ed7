// Simple acceptance with an instrument that is not much better than the tolerance.

import { add, compare, divide, rational, subtract, toNumber } from '../../calc/rational.js';
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
    const ratio = divide(subtract(tolerance.high, tolerance.low), both);
    if (compare(ratio, least) >= 0) return;
    yield {
      at: value.limitsAt,
      related: [
        { message: `the accuracy of \`${instrument.id}\``, at: instrument.source.accuracy?.at ?? instrument.source.at },
      ],
      data: { id: value.id, instrument: instrument.id, ratio: Math.floor(toNumber(ratio) * 10) / 10 },
    };
  },
  say: ({ id, instrument, ratio }) => ({
    message: `The tolerance of \`${id}\` is ${ratio} times twice the uncertainty of \`${instrument}\`, expected at least 4 under \`decision: simple\``,
    help: 'Decide by `guarded`, read it with a better instrument, or widen the limits if they may be wider.',
    note: 'ANSI/NCSL Z540.3 asks for a test uncertainty ratio of 4 where the uncertainty does not enter the decision.',
  }),
});

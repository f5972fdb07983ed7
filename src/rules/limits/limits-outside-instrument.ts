// Limits that the instrument cannot show.

import { sameDimension } from '../../calc/dimension.js';
import { formatLimits } from '../../calc/display.js';
import { rule } from '../rule.js';
import { endsWithin } from './ends.js';

export default rule({
  id: 'limits-outside-instrument',
  severity: 'error',
  needs: 'value',
  *run({ value }) {
    const { instrument, tolerance } = value;
    if (!instrument?.range || !tolerance || endsWithin(tolerance, instrument.range)) return;
    // that it measures something else altogether is a fault of its own
    if (!sameDimension(instrument.range.unit.dimension, tolerance.unit.dimension)) return;
    yield {
      at: value.limitsAt,
      related: [
        {
          message: `\`${instrument.id}\` reads ${formatLimits(instrument.range)}`,
          at: instrument.source.range?.at ?? instrument.source.at,
        },
      ],
      data: {
        id: value.id,
        limits: value.shown.tolerance,
        instrument: instrument.id,
        range: formatLimits(instrument.range),
      },
    };
  },
  say: ({ id, limits, instrument, range }) => ({
    message: `The limits ${limits} of \`${id}\` reach outside what \`${instrument}\` reads, ${range}`,
    help: 'Read it with another instrument, or mend the limits or the range.',
    note: 'A reading at the limit would not be shown.',
  }),
});

// An instrument whose smallest step is large beside the tolerance.

import { compare, divide, rational, subtract, toNumber } from '../../calc/rational.js';
import { rule } from '../rule.js';

const mostShare = rational(1, 10);

export default rule({
  id: 'resolution-too-coarse',
  severity: 'warning',
  needs: 'value',
  *run({ value }) {
    const { instrument, tolerance, resolution } = value;
    if (!instrument || !resolution || !tolerance?.low || !tolerance.high) return;
    const width = subtract(tolerance.high, tolerance.low);
    if (width.num <= 0n || compare(divide(resolution, width), mostShare) <= 0) return;
    yield {
      at: value.limitsAt,
      related: [
        {
          message: `the resolution of \`${instrument.id}\``,
          at: instrument.source.resolution?.at ?? instrument.source.at,
        },
      ],
      data: {
        id: value.id,
        instrument: instrument.id,
        limits: value.shown.tolerance,
        steps: Math.floor(toNumber(divide(width, resolution))),
      },
    };
  },
  say: ({ id, instrument, limits, steps }) => ({
    message: `\`${instrument}\` has ${steps} steps between the limits ${limits} of \`${id}\`, expected at least 10`,
    help: 'Read it with an instrument of finer resolution, or widen the limits if they may be wider.',
    note: 'With so few steps the last digit decides, not the machine.',
  }),
});

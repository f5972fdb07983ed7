// Limits that reach where the sensor does not read at all.

import { rule } from '../rule.js';
import { endsWithin } from './ends.js';

export default rule({
  id: 'limits-outside-sensor-band',
  severity: 'error',
  needs: 'value',
  *run({ value }) {
    if (!value.inside || !value.tolerance || endsWithin(value.tolerance, value.inside)) return;
    const related = value.source.inside
      ? [{ message: `it reads within ${value.shown.inside}`, at: value.source.inside.at }]
      : [];
    yield {
      at: value.limitsAt,
      related,
      data: { id: value.id, limits: value.shown.tolerance, inside: value.shown.inside },
    };
  },
  say: ({ id, limits, inside }) => ({
    message: `The limits ${limits} of \`${id}\` reach outside the band in which it reads, ${inside}`,
    help: `Keep the limits within ${inside}, or mend \`inside\`.`,
    note: 'Outside its band a sensor counts as broken: a reading there can never be a good one.',
  }),
});

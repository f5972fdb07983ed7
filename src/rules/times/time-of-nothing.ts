// A time to wait or to hold that is no time at all.

import type { Limits } from '../../calc/limits.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'time-of-nothing',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure: { steps } }) {
    for (const step of steps) {
      for (const key of ['wait', 'hold'] as const) {
        const time = step[key];
        if (time && isNothing(time.limits))
          yield { at: placeOf(step.source[key], step.at), data: { key, text: time.text } };
      }
    }
  },
  say: ({ key, text }) => ({
    message: `\`${key}: ${text}\` is no time at all`,
    help: `Write how long to ${key}, or take \`${key}\` out.`,
    note: 'A digit that was lost turns a minute into nothing, and a part that still turns is reached into.',
  }),
});

function isNothing({ low, high }: Limits): boolean {
  return high ? high.num <= 0n : low !== undefined && low.num <= 0n;
}

function placeOf(written: { readonly at: Span } | undefined, step: Span): Span {
  return written?.at ?? step;
}

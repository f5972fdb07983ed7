// A time to wait or to hold that is no time at all, or none that a hand can keep.

import type { Limits } from '../../calc/limits.js';
import { compare, rational } from '../../calc/rational.js';
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
    message: `\`${key}: ${text}\` is no time that a person can keep`,
    help: `Write how long to ${key}, or take \`${key}\` out.`,
    note: 'A digit that was lost, or `ms` for `s`, turns a minute into nothing, and a part that still turns is reached into.',
  }),
});

/** A quarter of a second: faster than a hand answers to what it sees (common practice, no source). */
const shortest = rational(1, 4);

function isNothing({ low, high }: Limits): boolean {
  const longest = high ?? low;
  return longest !== undefined && compare(longest, shortest) < 0;
}

function placeOf(written: { readonly at: Span } | undefined, step: Span): Span {
  return written?.at ?? step;
}

// A key that is to be held longer than all of the procedure is said to take.

import { formatLimits } from '../../calc/display.js';
import { add, compare, type Rational, sign } from '../../calc/rational.js';
import type { Procedure, Step } from '../../model/procedure.js';
import { leavesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { plainLimits } from '../across/siblings.js';
import { rule } from '../rule.js';

export default rule({
  id: 'hold-longer-than-time',
  severity: 'warning',
  needs: 'procedure',
  *run({ time, steps }) {
    const most = time && longestOf(time);
    if (!most) return;
    for (const { step, at, least, text } of holdsOf(steps)) {
      if (compare(least, most) <= 0) continue;
      yield { at, related: [{ message: 'the time of the procedure', at: time.at }], data: { step, text } };
    }
  },
  say: ({ step, text }) => ({
    message: `\`${step}\` is held for ${text}, longer than all of the procedure is said to take`,
    help: 'Mend `hold`, its unit or the `time` of the procedure: one of them is a slip.',
    note: 'Who plans the work goes by the time, and who does it by the step.',
  }),
});

/** How long a step is held at least, each place where that is written once. */
export interface Hold {
  readonly step: string;
  readonly at: Span;
  readonly least: Rational;
  readonly text: string;
}

export function* holdsOf(steps: readonly Step[]): Iterable<Hold> {
  const told = new Set<number>();
  for (const { id, hold } of steps) {
    for (const written of hold ? leavesOf(hold) : []) {
      const limits = plainLimits(written);
      const least = limits?.low ?? limits?.high;
      const { at } = written.source;
      if (!limits || !least || told.has(at.start)) continue;
      told.add(at.start);
      yield { step: id.value, at, least, text: formatLimits(limits) };
    }
  }
}

/** The longest that a procedure may take; undefined where an end of its times is not written out, or lies below zero. */
export function longestOf({ total, handsOn, waiting }: NonNullable<Procedure['time']>): Rational | undefined {
  const parts = total ? [total] : [handsOn, waiting].flatMap((part) => part ?? []);
  let sum: Rational | undefined;
  for (const part of parts) {
    const ends = [...leavesOf(part)].map((written) => plainLimits(written)?.high);
    if (ends.some((end) => end === undefined)) return undefined;
    const longest = ends.reduce((a, b) => (a && b && compare(a, b) >= 0 ? a : b));
    if (!longest || sign(longest) < 0) return undefined;
    sum = sum ? add(sum, longest) : longest;
  }
  return sum;
}

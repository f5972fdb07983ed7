// A procedure that is said to take less time than its own steps wait.

import { formatLimits } from '../../calc/display.js';
import { isSingle, type Limits } from '../../calc/limits.js';
import { add, compare, type Rational, zero } from '../../calc/rational.js';
import type { NumberChoice } from '../../model/numbers.js';
import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { plainLimits } from '../across/siblings.js';
import { rule } from '../rule.js';

interface Facts {
  readonly waits: string;
  readonly said: string;
  readonly key: string;
}

export default rule({
  id: 'waits-exceed-time',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    const { time } = procedure.source;
    if (!time) return;
    const waiting = single(time.waiting);
    const said = waiting ?? single(time.total);
    const waits = waitsOf(procedure);
    if (!said || compare(waits, said.low) <= 0) return;
    const [at, key] = waiting ? [time.waiting?.at, '`waiting`'] : [time.total?.at, '`time`'];
    const data: Facts = { waits: formatLimits(as(said, waits)), said: formatLimits(said), key };
    yield { at: at ?? time.at, data };
  },
  say: ({ waits, said, key }: Facts) => ({
    message: `The steps wait for ${waits} where all goes well, and ${key} says ${said}`,
    help: 'Mend the time here, or the `wait` of the step that is a slip.',
    note: 'Whoever plans by the shorter time stops waiting before it is safe.',
  }),
});

interface Single extends Limits {
  readonly low: Rational;
}

function single(choice: NumberChoice | undefined): Single | undefined {
  const limits = choice?.kind === 'one' ? plainLimits(choice.value) : undefined;
  return limits?.low && isSingle(limits) ? { ...limits, low: limits.low } : undefined;
}

function as(like: Limits, value: Rational): Limits {
  const { unit, resolution } = like;
  return { low: value, high: value, unit, resolution };
}

/** What is waited for at the least on the way on which every reading passes and every expectation holds. */
function waitsOf({ steps }: ResolvedProcedure, depth = 0): Rational {
  const done = new Set<string>();
  let sum = zero;
  let step: ResolvedStep | undefined = steps[0];
  while (step && !done.has(step.id) && step.answers.length === 0) {
    const { id, wait, run, then }: ResolvedStep = step;
    done.add(id);
    if (wait?.limits.low) sum = add(sum, wait.limits.low);
    if (run && depth < 8) sum = add(sum, waitsOf(run, depth + 1));
    step = then ? steps.find((one) => one.id === then.go) : steps[steps.findIndex((one) => one.id === id) + 1];
  }
  return sum;
}

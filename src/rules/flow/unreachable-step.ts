// A step that no path leads to.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { stepIdAt, stepName } from '../order/words.js';
import { type Context, rule } from '../rule.js';

export default rule({
  id: 'unreachable-step',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }, context) {
    if (!result.complete) return;
    // A step of a procedure that is run is reported where that procedure is proved for itself.
    const own = result.unreachable.filter(
      ({ procedure, calls }) => procedure === variant.procedure.id && calls.length === 0,
    );
    const missed = new Set(own.map(({ step }) => step));
    const { steps } = variant.procedure;
    for (const [i, step] of steps.entries()) {
      if (!missed.has(step.id) || missed.has(steps[i - 1]?.id ?? '')) continue;
      // Whatever follows a step that is missed is mostly missed for the same reason: it is said once.
      const after = steps.slice(i).findIndex(({ id }) => !missed.has(id));
      const run = steps.slice(i, after < 0 ? steps.length : i + after);
      const place = own.find((one) => one.step === step.id);
      const last = run.at(-1)?.id ?? step.id;
      if (!place || breaksPromise(steps[i - 1]?.run, context)) continue;
      yield {
        at: stepIdAt(place, context.book),
        data: { place, last, count: run.length, caller: callerOf(steps[i - 1]) },
      };
    }
  },
  say: ({ place, last, count, caller }) => ({
    message:
      count === 1
        ? `No path leads to ${stepName(place)}`
        : `No path leads to the ${count} steps from \`${place.step}\` to \`${last}\``,
    help: 'Let a branch lead there, or mend the one before that passes it by, or take it out.',
    note: caller ?? 'A step that nobody comes to is missing from the work.',
  }),
});

// Behind a procedure that is run and does not come back.
function callerOf(before: ResolvedStep | undefined): string | undefined {
  if (!before?.run || before.then) return undefined;
  return `Step ${before.number} \`${before.id}\` runs \`${before.run.id}\`, which on no path comes to \`done\`.`;
}

// What promises to come to its end, and does not, is itself at fault: the steps behind it are not.
function breaksPromise(run: ResolvedProcedure | undefined, { resolved, proofs }: Context): boolean {
  if (!run?.leaves.get('done')?.length) return false;
  const own = resolved.variants.filter(({ procedure }) => procedure.id === run.id);
  return own.some(({ id }) => proofs?.get(id)?.ends.has('done') === false);
}

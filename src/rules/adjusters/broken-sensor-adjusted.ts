// A reading outside the band in which its sensor works at all, sent to the adjuster that moves it.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { agedValues } from '../../order/aged.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly step: string;
  readonly value: string;
  readonly band: string;
  /** The step that turns it. */
  readonly turned: string;
  /** The branch that takes the reading there. */
  readonly branch: 'fault' | 'outside' | 'low' | 'high';
}

export default rule({
  id: 'broken-sensor-adjusted',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const step of procedure.steps) {
      const finding = sentToAdjuster(step, procedure);
      if (finding) yield finding;
    }
  },
  say: ({ step, value, band, turned, branch }: Facts) => ({
    message: `Where \`${value}\` reads outside ${band}, the sensor or its wire is broken, and \`${step}\` leads to \`${turned}\`, where it is adjusted`,
    help:
      branch === 'fault'
        ? 'Let `fault` lead to `call-service`, or to the steps for a broken sensor.'
        : 'Add a branch for it, such as `fault: call-service`; without one it goes where the others go.',
    note: 'Nothing that is turned mends a broken sensor or wire: who tries turns a good setting away.',
  }),
});

function sentToAdjuster(step: ResolvedStep, procedure: ResolvedProcedure): Finding<Facts> | undefined {
  for (const value of procedure.values) {
    if (!step.measure.includes(value.id) || value.inside === undefined) continue;
    for (const branch of ['fault', 'outside', 'low', 'high'] as const) {
      const written = step.when.get(branch);
      if (!written) continue;
      const turning = turnedFrom(procedure, written.go, value.id);
      if (turning) {
        const at = step.source.when.get(branch)?.go.at ?? written.at;
        const related = [{ message: 'the band', at: value.source.inside?.at ?? value.source.at }];
        const band = value.shown.inside ?? 'its band';
        return { at, related, data: { step: step.id, value: value.id, band, turned: turning.id, branch } };
      }
      // the first of these that is written takes what lies outside the band; only `low` and `high` share it
      if (branch === 'fault' || branch === 'outside') break;
    }
  }
  return undefined;
}

/** The step that turns what moves the value, on the way from `go` before anything is read or asked. */
function turnedFrom(procedure: ResolvedProcedure, go: string, value: string): ResolvedStep | undefined {
  const { steps } = procedure;
  const seen = new Set<number>();
  let index = steps.findIndex(({ id }) => id === go);
  while (index >= 0 && !seen.has(index)) {
    seen.add(index);
    const step = steps[index];
    if (!step || step.run || step.answers.length > 0) return undefined;
    if (step.adjust.length > 0 && agedValues(procedure, step).has(value)) return step;
    if (step.measure.length > 0) return undefined;
    const { then } = step;
    index = then ? steps.findIndex(({ id }) => id === then.go) : index + 1;
  }
  return undefined;
}

// Where steps lead for one rig: branches with their targets, what they mean, and how often they may be taken.

import type { Branch, Procedure, Step } from '../model/procedure.js';
import type { ResolvedBranch } from '../model/resolved.js';
import { holdsFor } from './applies.js';
import { resolveConditions } from './conditions.js';
import type { Scene } from './scene.js';
import { type Places, wordsFor } from './words.js';

const ends: ReadonlySet<string> = new Set(['done', 'stop', 'call-service']);

/** Whether a branch's target is an end of the procedure. */
export function isEnd(target: string): boolean {
  return ends.has(target);
}

/** Whether the rig has the step. */
export function isStepPresent(scene: Scene, step: Step): boolean {
  return !step.only || holdsFor(scene, step.only);
}

/** A branch for the rig. A target that the procedure has and the rig has not is reported. */
export function resolveBranch(
  scene: Scene,
  branch: Branch,
  { procedure, places }: { readonly procedure: Procedure; readonly places: Places },
): ResolvedBranch {
  const { go, because, means, atMost, otherwise, at } = branch;
  const target = isEnd(go.value) ? undefined : procedure.steps.find(({ id }) => id.value === go.value);
  if (target && !isStepPresent(scene, target)) {
    scene.report({
      code: 'missing-target',
      message: `This leads to the step \`${go.value}\`, which these rigs do not have`,
      at: go.at,
      related: target.only ? [{ message: `\`${go.value}\` is only for these`, at: target.only.at }] : [],
      help: 'Lead to a step that all of them have, or give this step the same `only`.',
    });
  }
  return {
    go: go.value,
    ...(because ? { because: wordsFor(scene, because, places) } : {}),
    means: resolveConditions(scene, means),
    ...(atMost ? { atMost: atMost.value } : {}),
    ...(otherwise ? { otherwise: resolveBranch(scene, otherwise, { procedure, places }) } : {}),
    at,
  };
}

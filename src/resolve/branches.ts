// Where steps lead for one rig: branches with their targets, what they mean, and how often they may be taken.

import type { Branch, Procedure } from '../model/procedure.js';
import type { ResolvedBranch } from '../model/resolved.js';
import { resolveConditions } from './conditions.js';
import type { Scene } from './scene.js';
import { type Places, wordsFor } from './words.js';

const ends: ReadonlySet<string> = new Set(['done', 'stop', 'call-service']);

/** Whether a branch's target is an end of the procedure. */
export function isEnd(target: string): boolean {
  return ends.has(target);
}

/** The steps of a procedure: all that are written, and those that the rig has. */
export interface StepIds {
  readonly written: ReadonlySet<string>;
  readonly present: ReadonlySet<string>;
}

/** The ids of a procedure's steps, all of them and those of `steps`. */
export function stepIdsOf(procedure: Procedure, steps: Procedure['steps']): StepIds {
  const ids = (of: Procedure['steps']): ReadonlySet<string> => new Set(of.map(({ id }) => id.value));
  return { written: ids(procedure.steps), present: ids(steps) };
}

/** A branch for the rig. A target that the procedure has and the rig has not is reported. */
export function resolveBranch(
  scene: Scene,
  branch: Branch,
  { steps, places }: { readonly steps: StepIds; readonly places: Places },
): ResolvedBranch {
  const { go, because, means, atMost, otherwise, at } = branch;
  if (!isEnd(go.value) && steps.written.has(go.value) && !steps.present.has(go.value)) {
    scene.report({
      code: 'missing-target',
      message: `This leads to the step \`${go.value}\`, which these rigs do not have`,
      at: go.at,
      help: 'Lead to a step that all of them have, or give this step the same `only`.',
    });
  }
  return {
    go: go.value,
    ...(because ? { because: wordsFor(scene, because, places) } : {}),
    means: resolveConditions(scene, means),
    ...(atMost ? { atMost: atMost.value } : {}),
    ...(otherwise ? { otherwise: resolveBranch(scene, otherwise, { steps, places }) } : {}),
    at,
  };
}

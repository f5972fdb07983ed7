// Steps in any order that do not stand together.

import type { Branch, Procedure, Step } from '../../model/procedure.js';
import type { Report } from '../faults.js';

/**
 * Reports a list of `any-order` whose steps have another between them that no branch leads to: nobody comes to that, for
 * behind each step of the list comes another of it, or what stands behind them all.
 */
export function checkAnyOrder(report: Report, { anyOrder, steps }: Procedure): void {
  const targets = new Set(steps.flatMap(branchesOf).flatMap(targetsOf));
  for (const group of anyOrder) {
    const members = new Set(group.map(({ value }) => value));
    const first = steps.findIndex((step, i) => {
      const next = steps[i + 1];
      const isPassedBy = next && !members.has(next.id.value) && !targets.has(next.id.value);
      return members.has(step.id.value) && isPassedBy && steps.slice(i + 2).some(({ id }) => members.has(id.value));
    });
    const [before, between] = [steps[first], steps[first + 1]];
    const behind = steps.slice(first + 2).find(({ id }) => members.has(id.value));
    const named = group.find(({ value }) => value === behind?.id.value);
    // on one rig these may stand together where other steps are for another
    if (!before || !between || !behind || !named || [before, between, behind].some(({ only }) => only)) continue;
    report({
      code: 'any-order-apart',
      message: `\`${before.id.value}\` and \`${named.value}\` stand in one list of \`any-order\` and not side by side: nobody comes to \`${between.id.value}\` between them`,
      at: named.at,
      related: [{ message: `\`${between.id.value}\` stands here`, at: between.id.at }],
      help: `Add \`${between.id.value}\` to the list if it may be done in any order, too; else move it, or take \`${named.value}\` out of the list.`,
    });
  }
}

function branchesOf({ otherwise, when, answers, then }: Step): readonly (Branch | undefined)[] {
  return [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
}

function targetsOf(branch: Branch | undefined): readonly string[] {
  return branch ? [branch.go.value, ...targetsOf(branch.otherwise)] : [];
}

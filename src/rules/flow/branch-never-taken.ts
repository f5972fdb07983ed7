// A branch that no reading and no answer can lead to, on none of the rigs.

import type { BranchTaken, IdleBranch } from '../../order/result.js';
import { stepName } from '../order/words.js';
import { type Proof, rule } from '../rule.js';

export default rule({
  id: 'branch-never-taken',
  severity: 'warning',
  needs: 'proofs',
  *run(proofs, { isPart }) {
    if (isPart) return;
    const told = new Set<string>();
    for (const { variant, result } of proofs) {
      const all = proofs.filter((other) => other.variant.procedure.id === variant.procedure.id);
      for (const idle of result.idle) {
        const key = `${idle.at.file} ${idle.at.start}`;
        if (told.has(key) || !all.every((other) => isIdleIn(other, idle))) continue;
        told.add(key);
        const step = variant.procedure.steps.find(({ id }) => id === idle.place.step);
        yield { at: idle.at, data: { place: idle.place, branch: idle.branch, measure: step?.measure ?? [] } };
      }
    }
  },
  say: ({ place, branch, measure }) => ({
    message: `The branch \`${branch}\` of ${stepName(place)} can never be taken: ${reasonOf(branch, measure)}`,
    help:
      branch === 'then'
        ? 'Take it out, or let an answer lead there.'
        : 'Take it out, or mend the limits of what is read.',
    note: 'Whoever wrote it counted on it: a reading that was to go there goes elsewhere.',
  }),
});

// A rig that lacks the step says nothing of its branches.
function isIdleIn({ variant, result }: Proof, { at, place }: IdleBranch): boolean {
  if (!variant.procedure.steps.some(({ id }) => id === place.step)) return true;
  return result.idle.some((other) => other.at.file === at.file && other.at.start === at.start);
}

const lacking: Readonly<Partial<Record<BranchTaken, string>>> = {
  outside: 'has limits that it could miss otherwise',
  low: 'can be too low',
  high: 'can be too high',
  unsure: 'is decided by `three-zone`, where a reading can be too close to call',
  fault: 'has a band `inside`',
};

function reasonOf(branch: BranchTaken, measure: readonly string[]): string {
  if (branch === 'then') return 'each answer leads somewhere of its own';
  if (measure.length === 0) return 'the step reads nothing';
  const names = measure.map((id) => `\`${id}\``).join(' and ');
  const nothing = measure.length === 1 ? `${names} is no value that` : `of ${names} none`;
  return `${nothing} ${lacking[branch] ?? 'leads there'}`;
}

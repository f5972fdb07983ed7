// A safety rule that nearly every procedure breaks in which it is ever in force: it holds where it was not meant to.

import type { SafetyRule } from '../../model/conditions.js';
import type { Violation } from '../../order/result.js';
import { type Context, type Proof, rule } from '../rule.js';
import { errorsOf } from './blame.js';
import { violationsOf } from './violation.js';
import { code, isSo, listed } from './words.js';

/** Fewer than these may be wrong themselves. */
const fewest = 3;

/** The least share of the procedures, in which the rule is in force, that break it. */
const leastShare = 0.7;

export default rule({
  id: 'rule-unlike-procedures',
  severity: 'error',
  needs: 'proofs',
  *run(proofs, context) {
    for (const one of context.book.rules) {
      const { id } = one;
      const inForce = proceduresOf(proofs.filter(({ result }) => result.triggered.has(id)));
      const breaking = proofs.filter((proof) => errorsOf(proof).some((violation) => violation.rule?.id === id));
      const broken = proceduresOf(breaking);
      if (broken.length < fewest || broken.length < leastShare * inForce.length) continue;
      const told = breaking.filter((proof) => ownViolation(id, proof, context) !== undefined);
      const own = proceduresOf(told);
      if (own.length < fewest) continue;
      const first = told.map((proof) => ownViolation(id, proof, context)).find((found) => found !== undefined);
      yield {
        at: whenAt(one),
        data: {
          id,
          broken: broken.length,
          all: inForce.length,
          own,
          when: first?.triggeredBy ?? [],
          isBare: !one.when,
        },
      };
    }
  },
  say: ({ id, broken, all, own, when, isBare }) => ({
    message: `${broken === all ? `All ${all} procedures` : `${broken} of the ${all} procedures`} in which the safety rule ${code(id)} is in force break it${isBare ? ': it has no `when`, and so holds everywhere' : ''}`,
    help: isBare
      ? 'Say under `when` where it is to hold. If it is to hold everywhere, mend each of the procedures that are named here.'
      : `Look first whether its \`when\`${when.length > 0 ? `, by which it holds while ${isSo(when)},` : ''} and then whether its \`must\` or \`unchanged\` say what was meant. If they do, mend each of the procedures that are named here.`,
    note: `A rule that hardly any procedure keeps is more likely wrong than all of them. It is broken in ${listed(own.map(code), 'and')}.`,
  }),
});

function proceduresOf(proofs: readonly Proof[]): readonly string[] {
  return [...new Set(proofs.map(({ variant }) => variant.procedure.id))];
}

// What a procedure that is run breaks is told of that one alone.
function ownViolation(id: string, proof: Proof, context: Context): Violation | undefined {
  for (const kind of ['rule-broken', 'unchanged-broken'] as const)
    for (const { data } of violationsOf(kind, proof, context)) if (data.rule?.id === id) return data;
  return undefined;
}

function whenAt({ when, at }: SafetyRule): SafetyRule['at'] {
  return when?.kind === 'bundle' ? when.name.at : (when?.at ?? at);
}

// Steps that may be done in any order, of which one needs what another does: only in the order that is written all holds.

import type { Procedure } from '../../model/procedure.js';
import type { ResolvedProcedure } from '../../model/resolved.js';
import { rule } from '../rule.js';
import { brokenIn, isRight } from './blame.js';
import { code, listed } from './words.js';

export default rule({
  id: 'any-order-unlike-steps',
  severity: 'error',
  needs: 'proofs',
  *run(proofs, { book, resolved: { world }, reprove }) {
    if (!reprove) return;
    for (const [id, broken] of brokenIn(proofs)) {
      const holdsWith = (change: Change): boolean =>
        broken.every(({ variant }) =>
          isRight(
            { ...variant, procedure: { ...variant.procedure, anyOrder: change(variant.procedure) } },
            world,
            reprove,
          ),
        );
      const group = book.procedures
        .get(id)
        ?.anyOrder.find((one) => holdsWith((procedure) => without(procedure, idsOf(one))));
      const [first] = group ?? [];
      if (!group || !first) continue;
      const ids = idsOf(group);
      const needed = ids.filter((step) => ids.length > 2 && holdsWith((procedure) => reduced(procedure, ids, step)));
      yield { at: { ...first.at, end: group.at(-1)?.at.end ?? first.at.end }, data: { ids, needed } };
    }
  },
  say: ({ ids, needed }) => ({
    message: `${listed(ids.map(code), 'and')} may be done in any order here, and only in the order in which they are written is nothing wrong`,
    help:
      needed.length === 0
        ? 'Take them out of `any-order` (tried: the order then holds).'
        : `Take ${listed(needed.map(code), 'or')} out of \`any-order\` (tried: the order then holds), so that it stays where it is written.`,
    note: 'One of them needs what another does, or undoes what another needs.',
  }),
});

type Groups = ResolvedProcedure['anyOrder'];
type Change = (procedure: ResolvedProcedure) => Groups;

function idsOf(group: Procedure['anyOrder'][number]): readonly string[] {
  return group.map(({ value }) => value);
}

// a rig may lack some of the steps
function isOf(group: readonly string[], ids: readonly string[]): boolean {
  return group.every((step) => ids.includes(step));
}

function without({ anyOrder }: ResolvedProcedure, ids: readonly string[]): Groups {
  return anyOrder.filter((group) => !isOf(group, ids));
}

function reduced({ anyOrder, steps }: ResolvedProcedure, ids: readonly string[], left: string): Groups {
  const place = (id: string): number => steps.findIndex((step) => step.id === id);
  return anyOrder.flatMap((group) => {
    if (!isOf(group, ids)) return [group];
    const rest = group.filter((step) => step !== left);
    // a group stands together: only its first or its last step can leave it
    const places = rest.map(place);
    const isWithin = group.includes(left) && place(left) > Math.min(...places) && place(left) < Math.max(...places);
    return isWithin || rest.length < 2 ? (isWithin ? [group] : []) : [rest];
  });
}

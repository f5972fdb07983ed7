// One state that is asked for by the same digits in two units: `90 degF` here and `90 degC` there.

import { sameDimension } from '../../calc/dimension.js';
import type { Limits } from '../../calc/limits.js';
import type { Book } from '../../model/book.js';
import type { Conditions } from '../../model/conditions.js';
import type { Procedure } from '../../model/procedure.js';
import { leavesOf } from '../../model/walk.js';
import { procedureConditions } from '../../model/walk-conditions.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';
import { plainLimits } from './siblings.js';

interface Asked {
  readonly state: string;
  readonly digits: string;
  readonly text: string;
  readonly limits: Limits;
  readonly at: Span;
}

export default rule({
  id: 'same-digits-other-unit',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const groups = new Map<string, Asked[]>();
    for (const asked of askedIn(book)) {
      const key = `${asked.state} ${asked.digits}`;
      groups.set(key, [...(groups.get(key) ?? []), asked]);
    }
    for (const group of groups.values()) {
      const count = (one: Asked): number => group.filter((other) => unitOf(other) === unitOf(one)).length;
      const [usual] = [...group].sort((a, b) => count(b) - count(a));
      for (const odd of group) {
        if (!usual || unitOf(odd) === unitOf(usual)) continue;
        if (!sameDimension(odd.limits.unit.dimension, usual.limits.unit.dimension)) continue;
        const related = [{ message: `${usual.text} here`, at: usual.at }];
        yield { at: odd.at, related, data: { state: odd.state, text: odd.text, other: usual.text } };
      }
    }
  },
  say: ({ state, text, other }) => ({
    message: `\`${state}\` is asked for as ${text} here, and as ${other} elsewhere: the same digits in another unit`,
    help: 'Mend the unit that is a slip. If both are right, waive this with the reason.',
    note: 'A unit of the same kind passes every check of dimensions.',
  }),
});

function unitOf({ limits }: Asked): string {
  return limits.unit.symbol;
}

function* askedIn({ procedures }: Book): Iterable<Asked> {
  for (const procedure of procedures.values()) {
    for (const conditions of conditionsIn(procedure)) {
      for (const { state, test } of conditions.kind === 'map' ? conditions.conditions : []) {
        if (test.kind !== 'limits') continue;
        for (const written of leavesOf(test.limits)) {
          const limits = plainLimits(written);
          const text = written.source.value.trim();
          const digits = (text.match(/\d+(?:\.\d+)?/g) ?? []).join(' ');
          if (limits) yield { state: state.value, digits, text, limits, at: written.source.at };
        }
      }
    }
  }
}

function* conditionsIn(procedure: Procedure): Iterable<Conditions> {
  for (const { state, test, at } of procedure.requires) yield { kind: 'map', conditions: [{ state, test }], at };
  yield* procedureConditions(procedure);
}

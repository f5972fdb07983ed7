// An adjuster of which nobody says which way is positive, or says the same for two sides, or what to look at is not moved by it.

import type { Adjuster, Procedure } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import type { SourceText } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

type Facts =
  | { readonly fault: 'none'; readonly id: string }
  | { readonly fault: 'alike'; readonly id: string; readonly other: string; readonly words: string };

export default rule({
  id: 'adjuster-without-direction',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    const told = new Set<number>();
    for (const adjuster of procedure.adjusters) {
      if (told.has(adjuster.idAt.start)) continue;
      const found = findFault(adjuster, procedure);
      if (!found) continue;
      told.add(adjuster.idAt.start);
      yield found;
    }
  },
  say: (facts: Facts) =>
    facts.fault === 'none'
      ? {
          message: `Nobody says which way of turning \`${facts.id}\` is positive`,
          help: 'Add `positive:` with the way and where it is seen from, as in `positive: clockwise, seen from the left end of the header`.',
          note: 'The turn is worked out with a sign. Turned the other way it makes the fault twice as large.',
        }
      : {
          message: `\`${facts.words}\` stands for \`${facts.other}\` and for \`${facts.id}\` as the positive way`,
          help: 'Mend the words of the side that turns the other way. If both do turn alike, give the words once, without a choice by side.',
          note: 'Words are given by side where the sides are mirrored: the same words twice are likely a copy.',
        },
});

function findFault(adjuster: Adjuster, { adjusters }: Procedure): Finding<Facts> | undefined {
  const { id, idAt, positive } = adjuster;
  if (!positive) return { at: idAt, data: { fault: 'none', id } };
  const words = wordsOf(adjuster);
  const other = adjusters.find(
    (one) =>
      one !== adjuster &&
      one.idAt.start === idAt.start &&
      one.positive !== undefined &&
      placeOf(one) !== placeOf(adjuster) &&
      wordsOf(one) === words,
  );
  if (!other?.positive || words === undefined || !turning.test(words)) return undefined;
  const [first, second] = [adjuster, other].sort((a, b) => placeOf(a) - placeOf(b)) as [Adjuster, Adjuster];
  return {
    at: second.positive?.at ?? idAt,
    related: first.positive ? [{ message: `for \`${first.id}\``, at: first.positive.at }] : [],
    data: { fault: 'alike', id: second.id, other: first.id, words },
  };
}

/** Words of a turn that looks the other way from the other side. */
const turning = /clockwise|horario/i;

function placeOf({ positive }: Adjuster): number {
  return positive ? (templatesFirst(positive)?.at.start ?? positive.at.start) : -1;
}

function wordsOf({ positive }: Adjuster): string | undefined {
  return positive && templatesFirst(positive)?.value;
}

function templatesFirst(positive: Text): SourceText | undefined {
  const [choice] = positive.languages.values();
  return choice && [...leavesOf(choice)][0]?.source;
}

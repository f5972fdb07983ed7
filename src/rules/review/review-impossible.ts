// Dates of reviews and trials that cannot be as they stand.

import type { Procedure } from '../../model/procedure.js';
import type { Located } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

type Facts =
  | { readonly fault: 'ahead'; readonly what: string; readonly on: string; readonly today: string }
  | { readonly fault: 'not-after'; readonly next: string; readonly on: string };

export default rule({
  id: 'review-impossible',
  severity: 'error',
  needs: 'procedure',
  *run({ reviewed, verified }, { today }) {
    for (const { machine, on } of verified) yield* ahead(`The trial on \`${machine.value}\``, on, today);
    if (!reviewed?.on) return;
    const [review] = ahead('The review', reviewed.on, today);
    // against a day that is wrong itself nothing is to be held
    if (review) yield review;
    else yield* notAfter(reviewed.on, reviewed.next);
  },
  say: (facts: Facts) => ({
    message:
      facts.fault === 'ahead'
        ? `${facts.what} was on ${facts.on}, which is after today, ${facts.today}`
        : `The next review, ${facts.next}, is not after the last one, ${facts.on}`,
    help:
      facts.fault === 'ahead'
        ? 'Mend the date: only what has been done is written here. If it is right, the date of this computer is wrong.'
        : 'Mend the date: one of the two is a slip.',
  }),
});

function ahead(what: string, { value, at }: Located<string>, today: string | undefined): readonly Finding<Facts>[] {
  if (today === undefined || value <= today) return [];
  return [{ at, data: { fault: 'ahead', what, on: value, today } }];
}

function notAfter(on: Located<string>, next: NonNullable<Procedure['reviewed']>['next']): readonly Finding<Facts>[] {
  if (!next || next.value > on.value) return [];
  const related = [{ message: 'the last review', at: on.at }];
  return [{ at: next.at, related, data: { fault: 'not-after', next: next.value, on: on.value } }];
}

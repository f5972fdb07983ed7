// A procedure whose next review lies in the past.

import { rule } from '../rule.js';

export default rule({
  id: 'review-overdue',
  severity: 'warning',
  needs: 'procedure',
  *run({ reviewed, status }, { today }) {
    if (today === undefined || status.value === 'withdrawn' || !reviewed?.next) return;
    if (reviewed.next.value < today) yield { at: reviewed.next.at, data: { next: reviewed.next.value, today } };
  },
  say: ({ next, today }) => ({
    message: `The review was due on ${next}, and today is ${today}`,
    help: 'Go through the procedure once more, then move `next`, `on` and `by`.',
    note: 'ISO 9001, 7.5: documented information is reviewed and kept suitable.',
  }),
});

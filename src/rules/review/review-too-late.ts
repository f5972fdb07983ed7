// A next review later than the book wants one.

import { addMonths } from '../../model/dates.js';
import { rule } from '../rule.js';

export default rule({
  id: 'review-too-late',
  severity: 'warning',
  needs: 'procedure',
  *run({ reviewed, status }, { book }) {
    const every = book.settings.reviewEvery;
    if (!reviewed?.on || !reviewed.next || !every || status.value === 'withdrawn') return;
    const due = addMonths(reviewed.on.value, every.value);
    if (reviewed.next.value <= due) return;
    const related = [{ message: `reviews are wanted every ${every.value} months`, at: every.at }];
    yield { at: reviewed.next.at, related, data: { next: reviewed.next.value, on: reviewed.on.value, due } };
  },
  say: ({ next, on, due }) => ({
    message: `The next review, ${next}, is later than the book wants it: the last one was on ${on}, so it is due by ${due}`,
    help: 'Mend the date, or `review-every` in book.yaml.',
    note: 'ISO 9001:2015, 7.5: documented information is reviewed and kept suitable.',
  }),
});

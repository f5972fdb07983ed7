// A procedure whose next review lies in the past: as it says itself, or by how often the book wants reviews.

import { addMonths } from '../../model/dates.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

interface Facts {
  readonly due: string;
  readonly today: string;
  /** Months, where the book's `review-every` made it due. */
  readonly every: number | undefined;
}

export default rule({
  id: 'review-overdue',
  severity: 'warning',
  needs: 'procedure',
  *run({ reviewed, status }, { today, book }) {
    if (today === undefined || status.value === 'withdrawn') return;
    const { on, next } = reviewed ?? {};
    const every = book.settings.reviewEvery;
    if (next) {
      // a next review before the last one is a slip of its own
      const isPossible = !on || next.value > on.value;
      if (isPossible && next.value < today) yield found(next.at, { due: next.value, today, every: undefined });
    } else if (on && every) {
      const due = addMonths(on.value, every.value);
      if (due < today) {
        const related = [{ message: `reviews are wanted every ${every.value} months`, at: every.at }];
        yield { ...found(on.at, { due, today, every: every.value }), related };
      }
    }
  },
  say: ({ due, today, every }: Facts) => ({
    message: `The review was due on ${due}, and today is ${today}`,
    help:
      every === undefined
        ? 'Go through the procedure once more, then set `on`, `by` and `next` anew.'
        : 'Go through the procedure once more, then set `on` and `by` anew.',
    note: 'ISO 9001:2015, 7.5: documented information is reviewed and kept suitable.',
  }),
});

function found(at: Span, data: Facts): { readonly at: Span; readonly data: Facts } {
  return { at, data };
}

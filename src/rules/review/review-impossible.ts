// Review dates that cannot be as they stand.

import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

interface Facts {
  readonly ahead: boolean;
  readonly on: string;
  readonly than: string;
}

export default rule({
  id: 'review-impossible',
  severity: 'error',
  needs: 'procedure',
  *run({ reviewed }, { today }) {
    if (!reviewed?.on) return;
    const { on, next } = reviewed;
    const ahead = today !== undefined && on.value > today;
    if (!ahead && (!next || next.value > on.value)) return;
    const at: Span = ahead || !next ? on.at : next.at;
    const related = ahead ? [] : [{ message: 'the last review', at: on.at }];
    const facts: Facts = { ahead, on: on.value, than: ahead ? (today ?? '') : (next?.value ?? '') };
    yield { at, related, data: facts };
  },
  say: ({ ahead, on, than }) => ({
    message: ahead
      ? `The review was on ${on}, which is after today, ${than}`
      : `The next review, ${than}, is not after the last one, ${on}`,
    help: 'Mend the date: one of them is a slip.',
  }),
});

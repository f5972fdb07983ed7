// A released procedure without a review.

import { rule } from '../rule.js';

export default rule({
  id: 'never-reviewed',
  severity: 'hint',
  needs: 'procedure',
  *run({ status, reviewed }) {
    if (status.value === 'released' && !reviewed?.on) yield { at: status.at, data: {} };
  },
  say: () => ({
    message: 'This procedure is released and does not say when it was reviewed',
    help: 'Add `reviewed: { on: …, by: …, next: … }`.',
    note: 'ISO 9001, 7.5: documented information is reviewed and approved before use.',
  }),
});

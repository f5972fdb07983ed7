// Limits that a reading is held against without anyone saying what it is read with.

import { rule } from '../rule.js';

export default rule({
  id: 'value-without-instrument',
  severity: 'hint',
  needs: 'value',
  *run({ value }) {
    if (value.instrument || value.derived || !value.tolerance || value.decision === 'simple') return;
    yield { at: value.source.idAt, data: { id: value.id, decision: value.decision } };
  },
  say: ({ id, decision }) => ({
    message: `\`${id}\` is judged against its limits as written, since it says no \`read-with\``,
    help: 'Name the instrument in `read-with`, so that its uncertainty counts.',
    note: `Under \`decision: ${decision}\` a reading near a limit passes only as far as its instrument can tell.`,
  }),
});

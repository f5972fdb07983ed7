// Software versions of a machine that are not written in the order in which they came.

import { compareSerials } from '../../model/serials.js';
import { rule } from '../rule.js';

export default rule({
  id: 'software-out-of-order',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const { software } of book.machines.values()) {
      for (const { versions } of software) {
        for (const [i, version] of versions.entries()) {
          const before = versions[i - 1];
          if (!before || compareSerials(before.value, version.value) < 0) continue;
          const data = { version: version.value, before: before.value, same: before.value === version.value };
          yield { at: version.at, related: [{ message: 'the one before it', at: before.at }], data };
          break;
        }
      }
    }
  },
  say: ({ version, before, same }) => ({
    message: same
      ? `The version \`${version}\` stands twice`
      : `The version \`${version}\` stands behind \`${before}\`, and looks older`,
    help: 'Write the versions from the oldest to the newest: `at least` goes by their order. If they did come in this order, waive this with the reason.',
    note: 'Versions are compared by their parts, so that 3.10 is newer than 3.9.',
  }),
});

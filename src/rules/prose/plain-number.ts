// A number in words that is typed elsewhere, where a reference would put it in.

import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import type { Passage } from '../text/passages.js';
import { statementsOf } from './statements.js';

export default rule({
  id: 'plain-number',
  severity: 'hint',
  needs: 'book',
  *run(_, context) {
    for (const { passage, quantity, stated, verdict, on } of statementsOf(context)) {
      const isEqual = verdict === 'equals' || verdict === 'equals-some';
      // what is said of one machine stays its number on the pages of the others
      if (!isEqual || on !== undefined || !stated.refers || !quantity.digits || !mayRefer(passage)) continue;
      const at = spanWithin(passage.source, quantity.start, quantity.end);
      const written = passage.source.value.slice(quantity.start, quantity.end);
      yield {
        at,
        related: [{ message: `\`${stated.path}\` is typed here`, at: stated.at }],
        data: { at, written, path: stated.path, some: verdict === 'equals-some' },
      };
    }
  },
  say: ({ at, written, path, some }) => ({
    message: some
      ? `\`${written}\` is \`${path}\` of some of the machines and headers that this is for, and not of all`
      : `\`${written}\` stands here in digits, and is typed as \`${path}\` too`,
    help: `Write \`{${path}}\`, which puts in what each machine and header has.`,
    note: 'A number that is written twice is mended once.',
    fixes: [{ title: `Write \`{${path}}\``, safe: false, edits: [{ at, text: `{${path}}` }] }],
  }),
});

/** A card may have shorter words of its own. */
function mayRefer({ procedure, role }: Passage): boolean {
  return procedure !== undefined && role !== 'heading' && role !== 'card';
}

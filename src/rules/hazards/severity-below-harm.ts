// A hazard whose words say more harm than its severity, from which the signal word follows.

import type { Severity } from '../../model/conditions.js';
import type { Text } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { languageOf } from '../text/languages/languages.js';

type Harm = 'kills' | 'injures';

/** The severities that say less than the words. */
const below: Readonly<Record<Harm, readonly Severity[]>> = { kills: ['may-injure', 'damage'], injures: ['damage'] };

export default rule({
  id: 'severity-below-harm',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const { id, severity, what, harm } of book.hazards.values()) {
      for (const kind of ['kills', 'injures'] as const) {
        if (!below[kind].includes(severity.value)) continue;
        const said = findWords([harm, what], kind);
        if (!said) continue;
        const related = [{ message: 'what it does', at: said.at }];
        yield { at: severity.at, related, data: { id, kind, severity: severity.value, words: said.words } };
        break;
      }
    }
  },
  say: ({ id, kind, severity, words }) => ({
    message: `The severity of \`${id}\` is \`${severity}\`, and its words say that it ${kind === 'kills' ? 'kills' : 'hurts a person'}: “${words}”`,
    help:
      kind === 'kills'
        ? 'Write `severity: may-kill`, or `will-kill` where nobody could get away; or mend the words.'
        : 'Write `severity: may-injure`, or `may-kill` where it can kill; or mend the words.',
    note: 'Pages and cards put the signal word by the severity: where it says too little, a deadly step looks like a nuisance.',
  }),
});

/** The first words that say such harm, in any language that the rules know. */
function findWords(texts: readonly Text[], kind: Harm): { readonly words: string; readonly at: Span } | undefined {
  for (const { languages } of texts) {
    for (const [code, choice] of languages) {
      for (const { source } of leavesOf(choice)) {
        const found = languageOf(code)?.[kind].exec(source.value);
        if (found) return { words: found[0], at: spanWithin(source, found.index, found.index + found[0].length) };
      }
    }
  }
  return undefined;
}

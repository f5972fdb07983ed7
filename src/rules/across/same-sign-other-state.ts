// One sign that shows two different things: the same words below two conditions.

import type { Book } from '../../model/book.js';
import type { Requirement } from '../../model/procedure.js';
import { rule } from '../rule.js';

export default rule({
  id: 'same-sign-other-state',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const language = book.settings.languages[0] ?? '';
    const groups = new Map<string, Requirement[]>();
    for (const requirement of [...book.procedures.values()].flatMap(({ requires }) => requires)) {
      const written = requirement.shownBy?.languages.get(language);
      if (written?.kind !== 'one' || !isKnown(requirement, book)) continue;
      const words = written.value.source.value.trim();
      groups.set(words, [...(groups.get(words) ?? []), requirement]);
    }
    for (const [words, group] of groups) {
      for (const one of group) {
        const others = group.filter((other) => sayingOf(other) !== sayingOf(one));
        const alike = group.length - others.length;
        const [other] = others;
        // of two that differ the later one is told, of several the one that stands alone
        if (!other || alike > others.length || (alike === others.length && one === group[0])) continue;
        const related = [{ message: `the same words show ${sayingOf(other)} here`, at: other.test.at }];
        yield { at: one.test.at, related, data: { words, own: sayingOf(one), other: sayingOf(other) } };
      }
    }
  },
  say: ({ words, own, other }) => ({
    message: `“${words}” shows ${own} here, and ${other} elsewhere in the book`,
    help: 'Mend the state or its value here, or say how this one shows.',
    note: 'A sign that shows two things shows neither of them.',
  }),
});

/** What names no state, or a value that it never has, is wrong itself: nothing can be said of its sign. */
function isKnown({ state, test }: Requirement, { states }: Book): boolean {
  const values = states.get(state.value)?.values;
  return (
    values !== undefined &&
    (test.kind !== 'words' || test.words.every(({ value }) => values.some(({ id }) => id.value === value)))
  );
}

/** `` `engine` is `low-idle` ``. */
function sayingOf({ state, test }: Requirement): string {
  const words =
    test.kind === 'words'
      ? [...new Set(test.words.map(({ value }) => `\`${value}\``))].sort().join(' or ')
      : 'within limits';
  return `\`${state.value}\` is ${words}`;
}

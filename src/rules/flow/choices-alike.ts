// Two choices of a worksheet's column that read the same.

import { templatesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'choices-alike',
  severity: 'warning',
  needs: 'procedure',
  *run({ worksheets }) {
    for (const { columns } of worksheets) {
      for (const { id, choices = [] } of columns) {
        const before = new Map<string, { readonly choice: string; readonly at: Span }>();
        for (const choice of choices) {
          for (const [language] of choice.label.languages) {
            for (const { source } of templatesOf(choice.label, language)) {
              const words = source.value.trim().replaceAll(/\s+/g, ' ');
              const key = `${language} ${words.toLowerCase()}`;
              const other = before.get(key);
              if (!other) before.set(key, { choice: choice.id.value, at: source.at });
              if (!other || other.choice === choice.id.value) continue;
              const related = [{ message: `\`${other.choice}\``, at: other.at }];
              yield { at: source.at, related, data: { id, words, names: [other.choice, choice.id.value] } };
            }
          }
        }
      }
    }
  },
  say: ({ id, words, names }) => ({
    message: `Two choices of \`${id}\` read “${words}”: ${names.map((name) => `\`${name}\``).join(' and ')}`,
    help: 'Mend the words of the one that was copied.',
    note: 'Whoever fills in the table sees the words alone, and cannot tell which of the two to choose.',
  }),
});

// A word of terms.yaml that is preferred in one entry and avoided in another, or preferred twice.

import type { Term } from '../../model/book.js';
import type { Located } from '../../text/source.js';
import { rule } from '../rule.js';

interface Entry {
  readonly language: string;
  readonly word: Located<string>;
  readonly as: 'use' | 'also' | 'never';
}

export default rule({
  id: 'term-two-meanings',
  severity: 'warning',
  needs: 'book',
  *run({ terms }) {
    const first = new Map<string, Entry>();
    for (const term of terms) {
      for (const entry of entriesOf(term)) {
        const key = `${entry.language} ${entry.word.value.trim().toLowerCase()}`;
        const known = first.get(key);
        if (!known) first.set(key, entry);
        else if (known.as === 'use' || entry.as === 'use') {
          const related = [{ message: `it stands under \`${known.as}\` here`, at: known.word.at }];
          yield { at: entry.word.at, related, data: { word: entry.word.value, as: entry.as, other: known.as } };
        }
      }
    }
  },
  say: ({ word, as, other }) => ({
    message:
      as === other
        ? `\`${word}\` is the preferred word of two entries`
        : `\`${word}\` stands under \`${as}\` here, and under \`${other}\` elsewhere`,
    help:
      as === other
        ? 'Put both entries into one, or mend the word that is a slip.'
        : 'Decide which it is, and take the word out of the other place.',
    note: 'A term is checked wherever it stands: by two entries that differ either every text is wrong, or none is.',
  }),
});

function entriesOf({ use, also, never }: Term): readonly Entry[] {
  return [
    ...[...use].map(([language, word]): Entry => ({ language, word, as: 'use' })),
    ...also.map((word): Entry => ({ language: word.language, word, as: 'also' })),
    ...never.map((word): Entry => ({ language: word.language, word, as: 'never' })),
  ];
}

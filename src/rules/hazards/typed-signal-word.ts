// A signal word that an author typed: the word follows from the severity of the hazard.

import type { Book } from '../../model/book.js';
import type { Text } from '../../model/text.js';
import { templatesOf, textsOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';

/** At the start of a text, in capitals or with a colon or an exclamation mark. Within `**` it is a label of the machine. */
const word =
  /^\s*(?:((?:danger|warning|caution|notice|peligro|advertencia|precaución|atención|aviso)(?=\s*[:!]))|(DANGER|WARNING|CAUTION|NOTICE|PELIGRO|ADVERTENCIA|PRECAUCIÓN|ATENCIÓN|AVISO)(?!\p{L}))/iu;

export default rule({
  id: 'typed-signal-word',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const text of textsIn(book)) {
      for (const { source } of templatesOf(text)) {
        const found = word.exec(source.value);
        const [whole = '', other, capitals] = found ?? [];
        const typed = other ?? (capitals === capitals?.toUpperCase() ? capitals : undefined);
        if (typed === undefined) continue;
        const at = spanWithin(source, whole.length - typed.length, whole.length);
        yield { at, data: { typed } };
      }
    }
  },
  say: ({ typed }) => ({
    message: `The signal word \`${typed}\` is typed here, and pages put one there by the severity of each hazard`,
    help: 'Take the word out. In a step, name the hazard under `hazard` instead.',
    note: 'ANSI Z535.6, from memory: the word follows from how bad and how likely the harm is. A typed one stays when the severity changes.',
  }),
});

function* textsIn(book: Book): Iterable<Text> {
  for (const { what, harm, avoid } of book.hazards.values()) yield* [what, harm, avoid];
  for (const procedure of book.procedures.values()) {
    for (const { text, role } of textsOf(procedure))
      if (role === 'step' || role === 'note' || role === 'expectation') yield text;
  }
}

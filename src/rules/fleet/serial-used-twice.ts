// One machine or header of which two units of the fleet say that it is theirs.

import type { Book } from '../../model/book.js';
import type { Located, Span } from '../../text/source.js';
import { rule } from '../rule.js';

interface Owned {
  /** The machine or header, and its serial as it is compared. */
  readonly key: string;
  readonly kind: string;
  readonly serial: Located<string>;
  readonly unit: string;
}

export default rule({
  id: 'serial-used-twice',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const first = new Map<string, Owned>();
    for (const owned of ownedIn(book)) {
      const { key, kind, serial, unit } = owned;
      const inUnit = `in ${unit} ${plain(serial)}`;
      // no two things of one unit have one serial, whatever they are
      const earlier = first.get(key) ?? first.get(inUnit);
      if (!first.has(key)) first.set(key, owned);
      if (!first.has(inUnit)) first.set(inUnit, owned);
      if (!earlier) continue;
      const other = earlier.kind;
      const kinds = other === kind ? `\`${kind}\`` : `\`${other}\` and of \`${kind}\``;
      yield {
        at: serial.at,
        related: [relatedTo(earlier)],
        data: { kinds, serial: serial.value, unit, other: earlier.unit },
      };
    }
  },
  say: ({ kinds, serial, unit, other }) => ({
    message:
      unit === other
        ? `The serial \`${serial}\` of ${kinds} stands twice in \`${unit}\``
        : `The serial \`${serial}\` of ${kinds} stands in \`${other}\` and in \`${unit}\``,
    help: 'Mend the serial that is a slip, or take the machine or header out where it no longer is.',
    note: 'A card that is printed for the one, and a record that comes back from it, would go to the other.',
  }),
});

function relatedTo({ serial, unit }: Owned): { readonly message: string; readonly at: Span } {
  return { message: `it stands in \`${unit}\` first`, at: serial.at };
}

function* ownedIn({ fleet }: Book): Iterable<Owned> {
  for (const { id, machine, serial, headers } of fleet) {
    if (serial) yield owned(machine.value, serial, id.value);
    for (const one of headers) if (one.serial) yield owned(one.header.value, one.serial, id.value);
  }
}

function owned(kind: string, serial: Located<string>, unit: string): Owned {
  return { key: `${kind} ${plain(serial)}`, kind, serial, unit };
}

function plain({ value }: Located<string>): string {
  return value.toUpperCase().replaceAll(/[^\p{L}\d]/gu, '');
}

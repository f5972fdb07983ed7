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
      const earlier = first.get(key);
      if (!earlier) first.set(key, owned);
      else
        yield {
          at: serial.at,
          related: [relatedTo(earlier)],
          data: { kind, serial: serial.value, unit, other: earlier.unit },
        };
    }
  },
  say: ({ kind, serial, unit, other }) => ({
    message:
      unit === other
        ? `The serial \`${serial}\` of \`${kind}\` stands twice in \`${unit}\``
        : `The serial \`${serial}\` of \`${kind}\` stands in \`${other}\` and in \`${unit}\``,
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
  return { key: `${kind} ${serial.value.toUpperCase().replaceAll(/[^\p{L}\d]/gu, '')}`, kind, serial, unit };
}

// Two machines whose serials are partly the same: by its serial a machine would be either.

import type { Book, Machine } from '../../model/book.js';
import { compareSerials, countIn } from '../../model/serials.js';
import { rule } from '../rule.js';

interface Stretch {
  readonly id: string;
  readonly serials: NonNullable<Machine['serials']>;
}

export default rule({
  id: 'serials-overlap',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const all = stretchesOf(book);
    for (const [i, one] of all.entries()) {
      const other = all.slice(0, i).find((before) => areMixed(before.serials, one.serials));
      if (!other) continue;
      yield {
        at: one.serials.at,
        related: [{ message: `those of \`${other.id}\``, at: other.serials.at }],
        data: { id: one.id, other: other.id, shared: sharedBy(other.serials, one.serials) },
      };
    }
  },
  say: ({ id, other, shared }) => ({
    message: `The serials ${shared} are those of \`${other}\` and of \`${id}\``,
    help: 'Mend the stretch that is wrong: a serial belongs to one machine.',
    note: 'Whoever reads the serial off the plate would work by the page of either machine (ISO 10261: an identification number is given once).',
  }),
});

function stretchesOf({ machines }: Book): readonly Stretch[] {
  return [...machines.values()].flatMap(({ id, serials }) =>
    serials && (serials.to === undefined || compareSerials(serials.from, serials.to) <= 0) ? [{ id, serials }] : [],
  );
}

type Serials = Stretch['serials'];

/** Whether stretches overlap and count in one series, which a sign or letter before the count shows: `70-00100`. */
function areMixed(one: Serials, two: Serials): boolean {
  const series = (serials: Serials): readonly string[] =>
    [serials.from, ...(serials.to === undefined ? [] : [serials.to])].flatMap((end) => countIn(end)?.before || []);
  const others = new Set(series(two));
  if (!series(one).some((name) => others.has(name))) return false;
  return startsWithin(one, two) || startsWithin(two, one);
}

function startsWithin({ from, to }: Serials, other: Serials): boolean {
  return compareSerials(from, other.from) <= 0 && (to === undefined || compareSerials(other.from, to) <= 0);
}

/** `70-03000 to 70-04999`. */
function sharedBy(one: Serials, two: Serials): string {
  const from = compareSerials(one.from, two.from) < 0 ? two.from : one.from;
  const ends = [one.to, two.to].filter((end) => end !== undefined).sort(compareSerials);
  return ends[0] === undefined ? `from \`${from}\` on` : `\`${from}\` to \`${ends[0]}\``;
}

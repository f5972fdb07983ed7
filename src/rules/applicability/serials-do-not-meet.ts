// Stretches of serials of which one ends where the next begins, and not right before it: one machine gets both, or neither.

import type { Applies, AppliesTest, Procedure } from '../../model/procedure.js';
import { compareSerials, countIn } from '../../model/serials.js';
import type { Located, Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Stretch {
  readonly from?: Located<string>;
  readonly to?: Located<string>;
  /** What else decides, as it is compared. */
  readonly besides: string;
  readonly at: Span;
}

interface Facts {
  readonly ends: string;
  readonly begins: string;
  /** The serial between two ends that none has; missing where both have the end. */
  readonly between?: string;
}

export default rule({
  id: 'serials-do-not-meet',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    yield* findingsIn([...book.procedures.values()].flatMap(({ applies }) => stretchesIn(applies)));
    for (const procedure of book.procedures.values()) yield* findingsIn(partsOf(procedure).flatMap(stretchesIn));
  },
  say: ({ ends, begins, between }: Facts) => ({
    message:
      between === undefined
        ? `One stretch of serials goes to \`${ends}\` and the next one from \`${begins}\`: the machine with this serial has both`
        : `One stretch of serials goes to \`${ends}\` and the next one from \`${begins}\`: the machine with the serial \`${between}\` has neither`,
    help: 'Let one end right before the other begins. Both ends belong to a stretch.',
    note: 'A change in the factory begins with one machine: that one would get the wrong part.',
  }),
});

function partsOf({ steps, values, adjusters, requires }: Procedure): readonly Applies[] {
  return [...steps, ...values, ...adjusters, ...requires].flatMap(({ only }) => only ?? []);
}

/** The stretches of a condition, each part that is written once for several sides or rigs once. */
function stretchesIn(applies: Applies): readonly Stretch[] {
  if (applies.kind !== 'keys') return [];
  const besides = applies.tests
    .filter(({ key }) => key !== 'serials')
    .map(textOf)
    .sort()
    .join(' ');
  return applies.tests.flatMap((test) => {
    if (test.key !== 'serials') return [];
    const { from, to, at } = test;
    return [{ ...(from ? { from } : {}), ...(to ? { to } : {}), besides, at }];
  });
}

function textOf(test: AppliesTest): string {
  return JSON.stringify(test, (key, value: unknown) => (key === 'at' ? undefined : value));
}

function* findingsIn(all: readonly Stretch[]): Iterable<Finding<Facts>> {
  const told = new Set<string>();
  for (const one of all) {
    for (const two of all) {
      const [ends, begins] = [one.to, two.from];
      if (!ends || !begins || one.at.start === two.at.start || one.besides !== two.besides) continue;
      const between = missedBetween(ends.value, begins.value);
      const isTwice = compareSerials(ends.value, begins.value) === 0;
      const isMissed = between !== undefined && !all.some((stretch) => hasSerial(stretch, between));
      const key = `${ends.value} ${begins.value} ${one.besides}`;
      if ((!isTwice && !isMissed) || told.has(key)) continue;
      told.add(key);
      const data = { ends: ends.value, begins: begins.value, ...(isTwice ? {} : { between: between ?? '' }) };
      yield { at: begins.at, related: [{ message: 'the other ends here', at: ends.at }], data };
    }
  }
}

/** The one serial between two of a series; undefined where there is none, or more than one. */
function missedBetween(ends: string, begins: string): string | undefined {
  const [one, two] = [countIn(ends), countIn(begins)];
  if (!one || !two || one.before !== two.before || two.count !== one.count + 2n) return undefined;
  const digits = /\d+$/.exec(ends)?.[0] ?? '';
  return `${ends.slice(0, ends.length - digits.length)}${String(one.count + 1n).padStart(digits.length, '0')}`;
}

function hasSerial({ from, to }: Stretch, serial: string): boolean {
  return (!from || compareSerials(from.value, serial) <= 0) && (!to || compareSerials(serial, to.value) <= 0);
}

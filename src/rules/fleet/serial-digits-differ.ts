// A serial with more or fewer digits than the series that it belongs to, which fills up with zeros: `70-0317` among `70-00100`.

import type { Book, Machine } from '../../model/book.js';
import type { AppliesTest } from '../../model/procedure.js';
import { isInStretch } from '../../model/serials.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

interface Named {
  readonly serial: string;
  readonly at: Span;
  readonly machines: readonly Machine[];
}

export default rule({
  id: 'serial-digits-differ',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    for (const { id, serials } of book.machines.values()) {
      if (serials?.to === undefined || !isFilled(serials.from, serials.to)) continue;
      if (!differInDigits(serials.from, serials.to)) continue;
      yield { at: serials.at, data: { serial: serials.to, id, like: serials.from } };
    }
    for (const { serial, at, machines } of namedIn(book)) {
      const series = machines.flatMap((machine) => seriesOf(machine, serial) ?? []);
      const [first] = series;
      if (!first || series.length < machines.length) continue;
      if (!series.every(({ from }) => differInDigits(from, serial))) continue;
      const related = [{ message: `the serials of \`${first.id}\``, at: first.at }];
      yield { at, related, data: { serial, id: first.id, like: first.from } };
    }
  },
  say: ({ serial, id, like }) => ({
    message: `\`${serial}\` has not as many digits as \`${like}\`, and the serials of \`${id}\` are filled up with zeros`,
    help: 'Mend the serial: a digit is missing, or one is too many.',
    note: 'A serial with a digit lost is another machine of the series, whose numbers may differ.',
  }),
});

interface Series {
  readonly id: string;
  readonly from: string;
  readonly at: Span;
}

/** The series of a machine, if it is filled up and holds the serial as it is counted. */
function seriesOf({ id, serials }: Machine, serial: string): Series | undefined {
  if (serials?.to === undefined || !isFilled(serials.from, serials.to)) return undefined;
  const { from, to, at } = serials;
  const stretch = { from: { serial: from, included: true }, to: { serial: to, included: true } };
  return !differInDigits(from, to) && isInStretch(stretch, serial) ? { id, from, at } : undefined;
}

/** Whether one of the ends has a zero before its last number. */
function isFilled(from: string, to: string): boolean {
  return [from, to].some((end) => /(?<!\d)0\d*\D*$/.test(end));
}

/** Whether two serials have the same numbers and letters in turn, and one of the numbers has not as many digits. */
function differInDigits(one: string, two: string): boolean {
  const [own, other] = [runsOf(one), runsOf(two)];
  const isAlike = own.length === other.length && own.every((run, i) => isNumber(run) === isNumber(other[i] ?? ''));
  return isAlike && own.some((run, i) => isNumber(run) && run.length !== other[i]?.length);
}

function runsOf(serial: string): readonly string[] {
  return serial.match(/\d+|\p{L}+/gu) ?? [];
}

function isNumber(run: string): boolean {
  return /^\d/.test(run);
}

function* namedIn({ fleet, procedures, machines }: Book): Iterable<Named> {
  for (const { machine, serial } of fleet) {
    const own = machines.get(machine.value);
    if (serial && own) yield { serial: serial.value, at: serial.at, machines: [own] };
  }
  const seen = new Set<string>();
  for (const { applies, steps, values, requires, adjusters } of procedures.values()) {
    const all = [applies, ...[...steps, ...values, ...requires, ...adjusters].flatMap(({ only }) => only ?? [])];
    for (const one of all) {
      if (one.kind !== 'keys') continue;
      const own = machinesIn(one.tests).flatMap((id) => machines.get(id) ?? []);
      for (const { value, at } of own.length > 0 ? endsIn(one.tests) : []) {
        const key = `${at.file} ${at.start}`;
        if (!seen.has(key)) yield { serial: value, at, machines: own };
        seen.add(key);
      }
    }
  }
}

function machinesIn(tests: readonly AppliesTest[]): readonly string[] {
  return tests.flatMap((test) => (test.key === 'machine' ? test.ids.map(({ value }) => value) : []));
}

function endsIn(tests: readonly AppliesTest[]): readonly { readonly value: string; readonly at: Span }[] {
  return tests.flatMap((test) =>
    test.key === 'serials' ? [test.from, test.to].filter((end) => end !== undefined) : [],
  );
}

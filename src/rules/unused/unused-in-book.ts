// Something in a shared file that nothing in the book uses.

import type { Book } from '../../model/book.js';
import { leavesOf, placesOf } from '../../model/walk.js';
import { conditionsOf } from '../../model/walk-conditions.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';
import { namesInNumbers, namesOf } from './used.js';

interface Thing {
  readonly kind: string;
  readonly id: string;
  readonly at: Span;
}

export default rule({
  id: 'unused-in-book',
  severity: 'hint',
  needs: 'book',
  *run(book) {
    // what a file uses that could not be read whole is not known
    if (book.unread.size > 0) return;
    for (const { kind, id, at } of [...sharedThings(book), ...machineThings(book)]) yield { at, data: { kind, id } };
  },
  say: ({ kind, id }) => ({
    message: `Nothing in the book uses the ${kind} \`${id}\``,
    help: 'Take it out, or use it where it was meant to be.',
  }),
});

function* sharedThings(book: Book): Iterable<Thing> {
  const procedures = [...book.procedures.values()];
  const { states, bundles } = conditionsOf(book);
  const instruments = new Set(
    procedures.flatMap(({ values, worksheets }) => [
      ...values.flatMap(({ readWith }) => (readWith ? [...leavesOf(readWith)].map(({ value }) => value) : [])),
      ...worksheets.flatMap(({ columns }) => columns.flatMap((column) => column.readWith?.value ?? [])),
    ]),
  );
  const tools = new Set(procedures.flatMap((procedure) => procedure.tools.map(({ value }) => value)));
  const events = new Set(procedures.flatMap(({ voidedBy }) => voidedBy.map(({ value }) => value)));
  const hazards = new Set([
    ...book.rules.flatMap(({ hazard }) => hazard?.value ?? []),
    ...procedures.flatMap((procedure) => procedure.hazards.map(({ value }) => value)),
  ]);
  const fitting = new Set([...book.machines.values()].flatMap(({ headers }) => headers.map(({ value }) => value)));
  const given = new Set(procedures.flatMap(({ gives }) => gives?.value ?? []));
  const lists: readonly (readonly [string, Iterable<{ id: string; at: Span }>, (id: string) => boolean])[] = [
    ['instrument', book.instruments.values(), (id) => instruments.has(id) || tools.has(id)],
    ['tool', book.tools.values(), (id) => tools.has(id)],
    ['event', book.events.values(), (id) => events.has(id)],
    ['hazard', book.hazards.values(), (id) => hazards.has(id)],
    ['state', book.states.values(), (id) => states.has(id) || given.has(id)],
    ['bundle of conditions', book.bundles.values(), (id) => bundles.has(id)],
    ['header', book.headers.values(), (id) => fitting.has(id)],
  ];
  for (const [kind, things, used] of lists) for (const { id, at } of things) if (!used(id)) yield { kind, id, at };
}

/** Words and parameters of machines, parameters of headers. */
function* machineThings(book: Book): Iterable<Thing> {
  const procedures = [...book.procedures.values()];
  const places = new Set(procedures.flatMap((procedure) => [...placesOf(procedure)]));
  const names = new Set(procedures.flatMap((procedure) => [...namesInNumbers(procedure)]));
  const owners = [
    ...[...book.machines.values()].map((of) => ['machine', of] as const),
    ...[...book.headers.values()].map((of) => ['header', of] as const),
  ];
  const parameters = new Set(owners.flatMap(([, of]) => [...of.parameters.keys()]));
  const isName = (path: string): boolean => parameters.has(path.slice(path.indexOf('.') + 1));
  const own = new Set(
    owners
      .flatMap(([, of]) => [
        ...[...of.parameters.values()].flatMap(({ value }) => [...leavesOf(value)]),
        ...of.agree.flatMap(({ that, equals, limits, within }) => [
          that,
          ...[equals, limits, within].filter((one) => one !== undefined),
        ]),
      ])
      .flatMap((written) => namesOf(written, isName)),
  );
  const isUsed = (prefix: string, id: string): boolean =>
    [`${prefix}.${id}`].some((path) => places.has(path) || names.has(path) || own.has(path)) || own.has(id);
  for (const [prefix, of] of owners) {
    for (const { id, at } of of.parameters.values()) if (!isUsed(prefix, id)) yield { kind: 'parameter', id, at };
  }
  for (const machine of book.machines.values()) {
    for (const [id, { at }] of machine.words) if (!isUsed('machine', id)) yield { kind: 'word', id, at };
  }
}

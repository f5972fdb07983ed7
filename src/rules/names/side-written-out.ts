// A step or adjuster that is written once for every side, and names what belongs to one of them.

import type { Adjuster, Branch, Procedure, Step } from '../../model/procedure.js';
import type { Located } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'side-written-out',
  severity: 'error',
  needs: 'procedure',
  *run(procedure) {
    const families = familiesIn(procedure);
    for (const { lists, own } of repeatedIn(procedure)) {
      for (const names of lists) {
        for (const name of names) {
          const family = families.find(({ ids }) => ids.includes(name.value));
          const isWhole = family?.ids.every((id) => names.some(({ value }) => value === id));
          if (!family || isWhole) continue;
          const side = family.sides[family.ids.indexOf(name.value)] ?? '';
          yield { at: name.at, data: { own, name: name.value, meant: writtenFor(family, name.value, side) } };
        }
      }
    }
  },
  say: ({ own, name, meant }) => ({
    message: `\`${own}\` is written once for every side, and names \`${name}\` on all of them`,
    help: `Write \`${meant.includes('{') ? `"${meant}"` : meant}\`. What is to name one side alone stands in a step without a side.`,
    note: 'The other side is then sent to this one, or read and turned on this one.',
  }),
});

/** What one declaration stands for: an id for each side, in the order of the sides. */
interface Family {
  readonly ids: readonly string[];
  readonly sides: readonly string[];
  /** The letters of the id as it is written, quotes not counted. */
  readonly length: number;
  readonly variable: string;
}

interface Declared {
  readonly id: string;
  readonly at: Located<string>['at'];
}

function familiesIn({ forEach, steps, values, adjusters, worksheets }: Procedure): readonly Family[] {
  if (!forEach) return [];
  const sides = forEach.values.map(({ value }) => value);
  const declared: readonly Declared[] = [
    ...steps.map(({ id: { value, at } }) => ({ id: value, at })),
    ...[...values, ...adjusters, ...worksheets].map(({ id, idAt }) => ({ id, at: idAt })),
  ];
  const groups = new Map<number, Declared[]>();
  for (const one of declared) groups.set(one.at.start, [...(groups.get(one.at.start) ?? []), one]);
  return [...groups.values()].flatMap((group): readonly Family[] => {
    const [first] = group;
    if (!first || group.length < 2 || group.length !== sides.length) return [];
    return [
      { ids: group.map(({ id }) => id), sides, length: first.at.end - first.at.start, variable: forEach.variable },
    ];
  });
}

/** `turn-{side}`; or `turn`, where the id is written without the side. */
function writtenFor({ length, variable }: Family, name: string, side: string): string {
  const plain = name.slice(0, name.length - side.length - 1);
  const isPlain = name.endsWith(side) && (length === plain.length || length === plain.length + 2);
  return isPlain ? plain : name.replace(new RegExp(`(?<![a-z0-9])${side}(?![a-z0-9])`), `{${variable}}`);
}

interface Repeated {
  readonly own: string;
  /** Names that stand together, the same on every side. */
  readonly lists: readonly (readonly Located<string>[])[];
}

/** The steps and adjusters that are repeated, each once, with what they name alike for every side. */
function* repeatedIn({ forEach, steps, adjusters }: Procedure): Iterable<Repeated> {
  if (!forEach) return;
  const start = steps.find(({ repeated }, i) => repeated && !steps[i - 1]?.repeated);
  for (const copies of copiesOf(steps, ({ id }) => id.at.start)) {
    const [first] = copies;
    if (!first?.repeated) continue;
    const lists = sameLists(copies.map(namedByStep));
    // going back to the beginning begins anew with all sides
    const isAnew = (name: Located<string>): boolean => name.value === start?.id.value;
    yield { own: putBack(first.id.value, forEach), lists: lists.map((names) => names.filter((one) => !isAnew(one))) };
  }
  for (const copies of copiesOf(adjusters, ({ idAt }) => idAt.start)) {
    const [first] = copies;
    if (first && copies.length > 1)
      yield { own: putBack(first.id, forEach), lists: sameLists(copies.map(namedByAdjuster)) };
  }
}

function putBack(id: string, { variable, values: [side] }: NonNullable<Procedure['forEach']>): string {
  return id.replace(new RegExp(`(?<![a-z0-9])${side?.value}(?![a-z0-9])`), `{${variable}}`);
}

function copiesOf<T>(all: readonly T[], startOf: (one: T) => number): Iterable<readonly T[]> {
  const groups = new Map<number, T[]>();
  for (const one of all) groups.set(startOf(one), [...(groups.get(startOf(one)) ?? []), one]);
  return groups.values();
}

/** Of the names in the first of several copies those that all others have at the same place. */
function sameLists(
  copies: readonly (readonly (readonly Located<string>[])[])[],
): readonly (readonly Located<string>[])[] {
  const [first = [], ...others] = copies;
  const isIn = (name: Located<string>, lists: readonly (readonly Located<string>[])[]): boolean =>
    lists.flat().some(({ value, at }) => value === name.value && at.start === name.at.start);
  return first.map((names) => names.filter((name) => others.every((lists) => isIn(name, lists))));
}

function namedByStep({
  measure,
  adjust,
  stale,
  otherwise,
  when,
  answers,
  then,
}: Step): readonly (readonly Located<string>[])[] {
  const branches = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  return [measure, adjust, stale, ...branches.flatMap(targetsOf).map((go) => [go])];
}

function targetsOf(branch: Branch | undefined): readonly Located<string>[] {
  return branch ? [branch.go, ...targetsOf(branch.otherwise)] : [];
}

function namedByAdjuster({ moves, watch }: Adjuster): readonly (readonly Located<string>[])[] {
  return [moves.map(({ value }) => value), watch ? [watch] : []];
}

// Joint states at one point of a path, and whether a question's test is met there.

import { type Box, intersectBoxes, replace } from './boxes.js';
import type { Test } from './question.js';
import {
  type Asked,
  applyOperation,
  isConflict,
  type Literal,
  type Operation,
  type Slice,
  traceBoxes,
  traceChange,
} from './slices.js';
import type { Variable } from './variables.js';

/** The number of the set of each component. */
export type Sets = readonly number[];

/** States at a point; behind an act or a branch also those before it and what came of each component. */
export interface Moment {
  readonly sets: Sets;
  readonly act?: { readonly before: Sets; readonly operation: Operation };
}

/** The states that a slice begins with. */
export function startSets({ components }: Slice): Sets {
  return components.map(({ start }) => start);
}

/** The moment after an operation. */
export function after(slice: Slice, before: Sets, operation: Operation): Moment {
  if (operation.changes.length === 0 && !operation.physics) return { sets: before };
  const sets = slice.components.map((component, i) => applyOperation(component, before[i] ?? 0, operation));
  return { sets, act: { before, operation } };
}

/** Whether a test is met by some state of a moment. */
export function isMet(slice: Slice, test: Test, { sets, act }: Moment): boolean {
  if (test.kind === 'exists') return exists(slice, test.literals, sets);
  const place = slice.places.get(test.variable);
  const component = place && slice.components[place.component];
  const before = place && act?.before[place.component];
  if (!component || before === undefined || !act) return false;
  if (test.kind === 'conflict') return isConflict(component, before, act.operation);
  const mark = 1n << BigInt(place.index);
  const items = traceChange(component, before, act.operation, test.variable);
  if (test.kind === 'forced') return items.some(({ forced }) => (forced & mark) !== 0n);
  const changed = items.filter((item) => (item.changed & mark) !== 0n);
  return (
    changed.length > 0 &&
    isDisturbed(
      slice,
      test,
      { sets, act },
      changed.map(({ box }) => box),
    )
  );
}

// Physics changed the variable: whether what the rule asks may have held before the act or after it.
function isDisturbed(
  slice: Slice,
  { variable, when }: Test & { readonly kind: 'disturbed' },
  { sets, act }: Required<Moment>,
  changed: readonly Box[],
): boolean {
  const place = slice.places.get(variable);
  const component = place && slice.components[place.component];
  if (!component) return false;
  const own = literalBox(slice, place.component, when);
  const others = when.filter((literal) => slice.places.get(literal.variable)?.component !== place.component);
  if (changed.some((box) => intersectBoxes(box, own)) && existsOnce(slice, others, sets)) return true;
  if (!existsOnce(slice, others, act.before)) return false;
  const triggering = (component.sets[act.before[place.component] ?? 0] ?? []).flatMap((box) => {
    const both = intersectBoxes(box, own);
    return both ? [both] : [];
  });
  const mark = 1n << BigInt(place.index);
  return traceBoxes(component, triggering, act.operation, variable).some((item) => (item.changed & mark) !== 0n);
}

/** Whether a state is possible in which all literals hold. */
export function exists(slice: Slice, literals: readonly Literal[], sets: Sets): boolean {
  return askedOf(slice, literals).every((asked) => isAnswered(slice, asked, sets[asked.component] ?? 0));
}

function existsOnce(slice: Slice, literals: readonly Literal[], sets: Sets): boolean {
  return makeAsked(slice, literals).every((asked) => isAnswered(slice, asked, sets[asked.component] ?? 0));
}

function isAnswered(slice: Slice, { component, box, answers }: Asked, set: number): boolean {
  const known = answers.get(set);
  if (known !== undefined) return known;
  const boxes = slice.components[component]?.sets[set] ?? [];
  const answer = boxes.some((each) => each.every((bits, i) => (bits & (box[i] ?? 0n)) !== 0n));
  answers.set(set, answer);
  return answer;
}

// What literals ask of each component, worked out once for a list of literals.
function askedOf(slice: Slice, literals: readonly Literal[]): readonly Asked[] {
  const known = slice.asked.get(literals);
  if (known) return known;
  const made = makeAsked(slice, literals);
  slice.asked.set(literals, made);
  return made;
}

function makeAsked(slice: Slice, literals: readonly Literal[]): readonly Asked[] {
  const components = new Set(literals.flatMap(({ variable }) => slice.places.get(variable)?.component ?? []));
  return [...components].map((component) => {
    return { component, box: literalBox(slice, component, literals), answers: new Map<number, boolean>() };
  });
}

// The box of a component in which its literals hold.
function literalBox(slice: Slice, number: number, literals: readonly Literal[]): Box {
  const component = slice.components[number];
  let box: Box = component?.variables.map(() => -1n) ?? [];
  for (const { variable, atoms } of literals) {
    const place = slice.places.get(variable);
    if (place?.component === number) box = replace(box, place.index, (box[place.index] ?? 0n) & atoms);
  }
  return box;
}

/** The atoms that a variable may have where `literals` hold. */
export function possibleAtoms(slice: Slice, variable: Variable, sets: Sets, literals: readonly Literal[] = []): bigint {
  const place = slice.places.get(variable);
  const component = place && slice.components[place.component];
  if (!place || !component) return 0n;
  const wanted = literalBox(slice, place.component, literals);
  return (component.sets[sets[place.component] ?? 0] ?? []).reduce((bits, box) => {
    return bits | (intersectBoxes(box, wanted)?.[place.index] ?? 0n);
  }, 0n);
}

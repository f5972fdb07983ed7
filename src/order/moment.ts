// Joint states at one point of a path, and whether a question's test is met there.

import { type Box, intersectBoxes, replace } from './boxes.js';
import type { Test } from './question.js';
import {
  type Applied,
  type Asked,
  applyOperation,
  type Literal,
  type Operation,
  type Slice,
  settleBoxes,
} from './slices.js';
import type { Variable } from './variables.js';

/** The number of the set of each component. */
export type Sets = readonly number[];

/** States at a point; behind an act or a branch also those before it and what came of each component. */
export interface Moment {
  readonly sets: Sets;
  readonly act?: { readonly before: Sets; readonly operation: Operation; readonly applied: readonly Applied[] };
}

/** The states that a slice begins with. */
export function startSets({ components }: Slice): Sets {
  return components.map(({ start }) => start);
}

/** The moment after an operation. */
export function after(slice: Slice, before: Sets, operation: Operation): Moment {
  if (operation.changes.length === 0 && !operation.physics) return { sets: before };
  const applied = slice.components.map((component, i) => applyOperation(component, before[i] ?? 0, operation));
  return { sets: applied.map(({ to }) => to), act: { before, operation, applied } };
}

/** Whether a test is met by some state of a moment. */
export function isMet(slice: Slice, test: Test, { sets, act }: Moment): boolean {
  if (test.kind === 'exists') return exists(slice, test.literals, sets);
  const place = slice.places.get(test.variable);
  const result = place && act?.applied[place.component];
  if (!place || !result || !act) return false;
  if (test.kind === 'conflict') return result.conflict;
  const mark = 1n << BigInt(place.index);
  if (test.kind === 'forced') return result.items?.some(({ forced }) => (forced & mark) !== 0n) ?? false;
  const changed = result.items?.filter((item) => (item.changed & mark) !== 0n) ?? [];
  if (changed.length === 0) return false;
  const component = slice.components[place.component];
  if (!component) return false;
  const own = literalBox(slice, place.component, test.when);
  const others = test.when.filter(({ variable }) => slice.places.get(variable)?.component !== place.component);
  const heldAfter =
    changed.some(({ box }) => intersectBoxes(box, own) !== undefined) && existsOnce(slice, others, sets);
  if (heldAfter) return true;
  if (!existsOnce(slice, others, act.before)) return false;
  const triggering = (component.sets[act.before[place.component] ?? 0] ?? []).flatMap((box) => {
    const both = intersectBoxes(box, own);
    return both ? [both] : [];
  });
  return settleBoxes(component, triggering, act.operation)?.items.some((item) => (item.changed & mark) !== 0n) ?? false;
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

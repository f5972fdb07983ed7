// Cuts a space of variables to those that a question depends on, and into components that no law joins. What is possible
// on one path is exactly the product of what is possible in each component, since an act sets variables one by one.

import { type Box, keyOfAll, tidy } from './boxes.js';
import { allowed, type Law, type LocalLaw, localLaws, type Settling, settle } from './physics.js';
import { assignAtoms, atomsOf, fullMask, type Space, stale, startAtoms, type Variable } from './variables.js';

/** What an act does to one variable. `age`: a reading that was taken becomes stale. */
export interface Change {
  readonly variable: Variable;
  readonly kind: 'assign' | 'age';
  readonly mask: bigint;
}

/** All that an act does at once; `physics` then follows or not (readings and places move nothing). */
export interface Operation {
  readonly changes: readonly Change[];
  readonly physics: boolean;
}

/** Variables that laws join. Sets of their joint states are kept once each and known by number. */
export interface Component {
  readonly variables: readonly Variable[];
  readonly index: ReadonlyMap<Variable, number>;
  readonly laws: readonly LocalLaw[];
  readonly sets: (readonly Box[])[];
  readonly numbers: Map<string, number>;
  readonly start: number;
  readonly results: Map<Operation, Map<number, Applied>>;
}

/** What an operation makes of a set: the set's number, and how physics settled it (missing where it had no part). */
export interface Applied {
  readonly to: number;
  readonly items?: readonly Settling[];
  readonly conflict: boolean;
}

/** The components of a question. A joint state set is one number for each. */
export interface Slice {
  readonly components: readonly Component[];
  readonly places: ReadonlyMap<Variable, { readonly component: number; readonly index: number }>;
}

export interface Slicer {
  readonly sliceFor: (variables: readonly Variable[]) => Slice;
  /** Groups of variables for which `requires`, `start` and physics leave nothing to start from. */
  readonly impossible: readonly (readonly Variable[])[];
  /** One variable of each group whose laws contradict each other in some state, possible or not. */
  readonly contested: readonly Variable[];
}

/** Makes slices of `space`. `starts` are the values that each variable may start with, physics apart. */
export function makeSlicer(space: Space, laws: readonly Law[], starts: readonly bigint[]): Slicer {
  const groups = joinedGroups(space.variables, laws, undefined).map((variables) => ({
    variables,
    boxes: startBoxes(variables, laws, starts),
  }));
  const groupOf = new Map(groups.flatMap((group) => group.variables.map((variable) => [variable, group] as const)));
  const components = new Map<string, Component>();
  const find = (variables: readonly Variable[]): Component => {
    const key = variables.map(({ index }) => index).join(',');
    const known = components.get(key);
    if (known) return known;
    const [first] = variables;
    const group = first && groupOf.get(first);
    const made = makeComponent(variables, laws, group ? project(group.boxes, group.variables, variables) : []);
    components.set(key, made);
    return made;
  };
  return {
    impossible: groups.filter(({ boxes }) => boxes.length === 0).map(({ variables }) => variables),
    contested: groups.flatMap(({ variables }) => contestedIn(variables, laws)),
    sliceFor: (variables) =>
      makeSlice(joinedGroups(coneOf(variables, laws), laws, new Set(coneOf(variables, laws))).map(find)),
  };
}

// Laws that never contradict each other, whatever the state, need not be asked about on any path.
function contestedIn(variables: readonly Variable[], laws: readonly Law[]): readonly Variable[] {
  const local = localLaws(laws, variables);
  if (local.length === 0) return [];
  const box = variables.map((variable) => atomsOf(variable, fullMask(variable)));
  const acted = variables.filter((variable) =>
    local.some(({ effects }) => effects.some((each) => each.variable === variable)),
  );
  return settle(local, variables, [{ box, changed: 0n, forced: 0n }]).conflict ? acted : [];
}

function makeSlice(components: readonly Component[]): Slice {
  const places = components.flatMap(({ variables }, component) =>
    variables.map((variable, index) => [variable, { component, index }] as const),
  );
  return { components, places: new Map(places) };
}

function startBoxes(variables: readonly Variable[], laws: readonly Law[], starts: readonly bigint[]): readonly Box[] {
  const all = variables.map((variable) => startAtoms(variable, starts[variable.index] ?? 0n));
  return all.includes(0n) ? [] : tidy(allowed(localLaws(laws, variables), [all]));
}

function project(boxes: readonly Box[], from: readonly Variable[], to: readonly Variable[]): readonly Box[] {
  const places = to.map((variable) => from.indexOf(variable));
  return tidy(boxes.map((box) => places.map((place) => box[place] ?? 0n)));
}

// What the variables depend on: themselves, and whatever triggers a law that changes one of them.
function coneOf(variables: readonly Variable[], laws: readonly Law[]): readonly Variable[] {
  const cone = new Set(variables);
  for (let size = -1; size < cone.size; ) {
    size = cone.size;
    for (const { when, effects } of laws) {
      if (effects.some(({ variable }) => cone.has(variable))) for (const { variable } of when) cone.add(variable);
    }
  }
  return [...cone].sort((a, b) => a.index - b.index);
}

// Variables that a law joins, each group in the order of the space; `within` leaves out effects on other variables.
function joinedGroups(
  variables: readonly Variable[],
  laws: readonly Law[],
  within: ReadonlySet<Variable> | undefined,
): readonly (readonly Variable[])[] {
  const root = new Map(variables.map((variable) => [variable, variable]));
  const find = (variable: Variable): Variable => {
    const above = root.get(variable) ?? variable;
    return above === variable ? variable : find(above);
  };
  for (const { when, effects } of laws) {
    const touched = effects.map(({ variable }) => variable).filter((variable) => !within || within.has(variable));
    const [first, ...others] = when.map(({ variable }) => variable);
    if (touched.length === 0 || !first) continue;
    for (const other of [...others, ...touched]) root.set(find(other), find(first));
  }
  const groups = new Map<Variable, Variable[]>();
  for (const variable of variables) {
    const group = groups.get(find(variable));
    if (group) group.push(variable);
    else groups.set(find(variable), [variable]);
  }
  return [...groups.values()];
}

function makeComponent(variables: readonly Variable[], laws: readonly Law[], start: readonly Box[]): Component {
  const sets = [start];
  return {
    variables,
    index: new Map(variables.map((variable, index) => [variable, index])),
    laws: localLaws(laws, variables),
    sets,
    numbers: new Map([[keyOfAll(start), 0]]),
    start: 0,
    results: new Map(),
  };
}

/** The number of a set of joint states. */
export function numberOf(component: Component, boxes: readonly Box[]): number {
  const set = tidy(boxes);
  const key = keyOfAll(set);
  const known = component.numbers.get(key);
  if (known !== undefined) return known;
  component.sets.push(set);
  component.numbers.set(key, component.sets.length - 1);
  return component.sets.length - 1;
}

/** What an operation makes of the set with that number. */
export function applyOperation(component: Component, set: number, operation: Operation): Applied {
  let results = component.results.get(operation);
  if (!results) {
    results = new Map();
    component.results.set(operation, results);
  }
  const known = results.get(set);
  if (known) return known;
  const rest = settleBoxes(component, component.sets[set] ?? [], operation);
  const result: Applied = rest
    ? {
        to: numberOf(
          component,
          rest.items.map(({ box }) => box),
        ),
        items: rest.items,
        conflict: rest.conflict,
      }
    : { to: set, conflict: false };
  results.set(set, result);
  return result;
}

/** The same for boxes that have no number; undefined where the operation leaves the component alone. */
export function settleBoxes(
  component: Component,
  boxes: readonly Box[],
  { changes, physics }: Operation,
): { items: readonly Settling[]; conflict: boolean } | undefined {
  const local = changes.filter(({ variable }) => component.index.has(variable));
  const laws = physics ? component.laws : [];
  if (local.length === 0 && laws.length === 0) return undefined;
  const start = boxes.map((box) => ({ box: changeBox(component, box, local), changed: 0n, forced: 0n }));
  return settle(laws, component.variables, start);
}

function changeBox({ index }: Component, box: Box, changes: readonly Change[]): Box {
  const copy = [...box];
  for (const { variable, kind, mask } of changes) {
    const place = index.get(variable) ?? 0;
    const bits = copy[place] ?? 0n;
    copy[place] = kind === 'age' ? ageReading(bits) : assignAtoms(variable, bits, mask);
  }
  return copy;
}

function ageReading(bits: bigint): bigint {
  return (bits & 1n) | (bits & ~1n ? stale : 0n);
}

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
  /** What was asked of it so far: see `moment`. */
  readonly asked: Map<readonly Literal[], readonly Asked[]>;
}

/** A set of atoms of one variable. */
export interface Literal {
  readonly variable: Variable;
  readonly atoms: bigint;
}

/** What literals ask of one component, and the answers by number of the set. */
export interface Asked {
  readonly component: number;
  readonly box: Box;
  readonly answers: Map<number, boolean>;
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
  const groups = joinedGroups(space.variables, lawLinks(laws, new Set(space.variables))).map((variables) => ({
    variables,
    boxes: startBoxes(variables, laws, starts),
  }));
  const groupOf = new Map(groups.flatMap((group) => group.variables.map((variable) => [variable, group] as const)));
  const components = new Map<string, Component>();
  const slices = new Map<string, Slice>();
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
    sliceFor: (variables) => {
      const asked = [...new Set(variables)].sort((a, b) => a.index - b.index);
      const key = asked.map(({ index }) => index).join(',');
      const known = slices.get(key);
      if (known) return known;
      const cone = coneOf(asked, laws);
      const bound = groups.map(({ variables: of, boxes }) => startLink(boxes, of, cone));
      const made = makeSlice(joinedGroups(cone, [...lawLinks(laws, new Set(cone)), ...bound]).map(find));
      slices.set(key, made);
      return made;
    },
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
  return { components, places: new Map(places), asked: new Map() };
}

function startBoxes(variables: readonly Variable[], laws: readonly Law[], starts: readonly bigint[]): readonly Box[] {
  const all = variables.map((variable) => startAtoms(variable, starts[variable.index] ?? 0n));
  return all.includes(0n) ? [] : tidy(allowed(localLaws(laws, variables), [all]));
}

function project(boxes: readonly Box[], from: readonly Variable[], to: readonly Variable[]): readonly Box[] {
  const places = to.map((variable) => from.indexOf(variable));
  return tidy(boxes.map((box) => places.map((place) => box[place] ?? 0n)));
}

// What physics binds together at the start: the variables in which the parts of the projected start differ.
function startLink(boxes: readonly Box[], from: readonly Variable[], cone: readonly Variable[]): readonly Variable[] {
  const own = from.filter((variable) => cone.includes(variable));
  if (own.length < 2 || boxes.length < 2) return [];
  const parts = project(boxes, from, own);
  return own.filter((_, i) => parts.some((box) => box[i] !== parts[0]?.[i]));
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

// What the laws join: all that triggers one with all of `within` that it changes.
function lawLinks(laws: readonly Law[], within: ReadonlySet<Variable>): readonly (readonly Variable[])[] {
  return laws.flatMap(({ when, effects }) => {
    const touched = effects.map(({ variable }) => variable).filter((variable) => within.has(variable));
    return touched.length === 0 || when.length === 0 ? [] : [[...when.map(({ variable }) => variable), ...touched]];
  });
}

// Variables joined by links, each group in the order of the space.
function joinedGroups(
  variables: readonly Variable[],
  links: readonly (readonly Variable[])[],
): readonly (readonly Variable[])[] {
  const root = new Map(variables.map((variable) => [variable, variable]));
  const find = (variable: Variable): Variable => {
    const above = root.get(variable) ?? variable;
    return above === variable ? variable : find(above);
  };
  for (const [first, ...others] of links) {
    if (first) for (const other of others) root.set(find(other), find(first));
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

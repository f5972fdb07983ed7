// Cuts a space of variables to those that a question depends on, and into components that no law joins. What is possible
// on one path is exactly the product of what is possible in each component, since an act sets variables one by one.

import { type Box, keyOfAll, tidy } from './boxes.js';
import { allowed, type Law, type LocalLaw, localLaws, type Rest, type Settling, settle } from './physics.js';
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
  /** What operations do to this component; undefined for one that leaves it alone. */
  readonly operations: Map<Operation, LocalOperation | undefined>;
  /** Laws alone, for all operations that change none of these variables. */
  readonly physicsOnly: LocalOperation;
}

/** An operation as one component sees it, and what it made of sets so far, by their number. */
interface LocalOperation {
  readonly changes: readonly Change[];
  readonly laws: readonly LocalLaw[];
  readonly results: Map<number, number>;
  /** Sets from which laws do not come to rest. */
  readonly conflicts: Set<number>;
  /** How a set settles, marked where a law changed the variable on the way. */
  readonly traces: Map<Variable, Map<number, readonly Settling[]>>;
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
  return settle({ laws: local, variables, watched: 0n }, [box]).conflict ? acted : [];
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

function localOperation(changes: readonly Change[], laws: readonly LocalLaw[]): LocalOperation {
  return { changes, laws, results: new Map(), conflicts: new Set(), traces: new Map() };
}

function makeComponent(variables: readonly Variable[], laws: readonly Law[], start: readonly Box[]): Component {
  const sets = [start];
  const local = localLaws(laws, variables);
  return {
    variables,
    index: new Map(variables.map((variable, index) => [variable, index])),
    laws: local,
    sets,
    numbers: new Map([[keyOfAll(start), 0]]),
    start: 0,
    operations: new Map(),
    physicsOnly: localOperation([], local),
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

/** The number of the set that an operation makes of the set with that number. */
export function applyOperation(component: Component, set: number, operation: Operation): number {
  const local = localOf(component, operation);
  if (!local) return set;
  const known = local.results.get(set);
  if (known !== undefined) return known;
  const { items, conflict } = settleBoxes(component, component.sets[set] ?? [], local);
  const to = numberOf(
    component,
    items.map(({ box }) => box),
  );
  if (conflict) local.conflicts.add(set);
  local.results.set(set, to);
  return to;
}

/** Whether the laws come to no rest after an operation on the set with that number. */
export function isConflict(component: Component, set: number, operation: Operation): boolean {
  applyOperation(component, set, operation);
  return localOf(component, operation)?.conflicts.has(set) ?? false;
}

function localOf(component: Component, operation: Operation): LocalOperation | undefined {
  if (operation.changes.length === 0 && !operation.physics) return undefined;
  if (component.operations.has(operation)) return component.operations.get(operation);
  const changes = operation.changes.filter(({ variable }) => component.index.has(variable));
  const laws = operation.physics ? component.laws : [];
  const idle = laws.length === 0 ? undefined : component.physicsOnly;
  const local = changes.length === 0 ? idle : localOperation(changes, laws);
  component.operations.set(operation, local);
  return local;
}

/** How an operation settles the set with that number, marked where a law changed `variable` on the way. */
export function traceChange(
  component: Component,
  set: number,
  operation: Operation,
  variable: Variable,
): readonly Settling[] {
  const local = localOf(component, operation);
  if (!local) return [];
  const bySet = local.traces.get(variable) ?? new Map<number, readonly Settling[]>();
  local.traces.set(variable, bySet);
  const known = bySet.get(set);
  if (known) return known;
  const { items } = settleBoxes(component, component.sets[set] ?? [], local, variable);
  bySet.set(set, items);
  return items;
}

/** The same for boxes that have no number. */
export function traceBoxes(
  component: Component,
  boxes: readonly Box[],
  operation: Operation,
  variable: Variable,
): readonly Settling[] {
  const local = localOf(component, operation);
  return local ? settleBoxes(component, boxes, local, variable).items : [];
}

function settleBoxes(component: Component, boxes: readonly Box[], local: LocalOperation, watched?: Variable): Rest {
  const place = watched === undefined ? undefined : component.index.get(watched);
  const start = boxes.map((box) => changeBox(component, box, local.changes));
  const bits = place === undefined ? 0n : 1n << BigInt(place);
  return settle({ laws: local.laws, variables: component.variables, watched: bits }, start);
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

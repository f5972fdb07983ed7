// What the parts of one proof share, and the union over all paths that they all ask.

import type { World } from '../model/resolved.js';
import type { Graph, Node } from './graph.js';
import { after, exists, type Sets } from './moment.js';
import type { Law } from './physics.js';
import type { Component, Literal, Slice, Slicer } from './slices.js';
import { type Budget, type Spread, spread } from './spread.js';

/** All that the parts of one proof share. */
export interface Proving {
  readonly graph: Graph;
  readonly world: World;
  readonly slicer: Slicer;
  readonly laws: readonly Law[];
  readonly budget: Budget;
  readonly spreads: Map<Component, Spread>;
}

/** The union over all paths of one component, worked out once. */
export function spreadOf({ graph, budget, spreads }: Proving, component: Component): Spread {
  const known = spreads.get(component);
  if (known) return known;
  const made = spread(graph, component, budget);
  spreads.set(component, made);
  return made;
}

/** The nodes where literals may hold together at some point, by the unions of what may hold there. */
export function nodesWhere(proving: Proving, literals: readonly Literal[]): ReadonlySet<number> {
  const slice = proving.slicer.sliceFor(literals.map(({ variable }) => variable));
  const spreads = slice.components.map((component) => spreadOf(proving, component));
  const found = new Set<number>();
  for (const node of proving.graph.nodes) {
    const arrived = spreads.map((reached) => reached.get(node.id));
    if (arrived.some((set) => set === undefined)) continue;
    if (
      mayHold(
        slice,
        node,
        literals,
        arrived.map((set) => set ?? 0),
      )
    )
      found.add(node.id);
  }
  return found;
}

function mayHold(slice: Slice, { move, acts }: Node, literals: readonly Literal[], arrived: Sets): boolean {
  if (exists(slice, literals, arrived)) return true;
  const entered = move ? after(slice, arrived, move).sets : arrived;
  if (move && exists(slice, literals, entered)) return true;
  return acts.some(({ operation }) => exists(slice, literals, after(slice, entered, operation).sets));
}

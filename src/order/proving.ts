// What the parts of one proof share, and the union over all paths that they all ask.

import type { World } from '../model/resolved.js';
import type { Graph } from './graph.js';
import type { Law } from './physics.js';
import type { Component, Slicer } from './slices.js';
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

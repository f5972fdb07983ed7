// What may hold at each step over all paths to it, one component at a time: the union that nothing exceeds. Exact for what
// one component is asked; a question across components that it cannot answer with no is followed path by path.

import { isCovered } from './boxes.js';
import type { Edge, Graph } from './graph.js';
import { applyOperation, type Component, numberOf } from './slices.js';

/** Counts states looked at, down to the bound. */
export interface Budget {
  left: number;
  explored: number;
}

/** Takes one state off the bound; false where it is met. */
export function spend(budget: Budget): boolean {
  budget.explored += 1;
  budget.left -= 1;
  return budget.left >= 0;
}

/** By node: the number of the set of states that it may be come to with; missing for a node that is never come to. */
export type Spread = ReadonlyMap<number, number>;

/** Follows all ways from the start till nothing is added. `follow` leaves ways out. */
export function spread(
  graph: Graph,
  component: Component,
  budget: Budget,
  follow: (edge: Edge) => boolean = () => true,
): Spread {
  if (staysAsItIs(graph, component)) return new Map(graph.nodes.map(({ id }) => [id, component.start]));
  const reached = new Map(graph.entries.map((id) => [id, component.start]));
  const waiting = [...graph.entries];
  const arrive = (to: number, set: number): void => {
    const known = reached.get(to);
    if (known === set) return;
    const before = known === undefined ? [] : (component.sets[known] ?? []);
    const more = (component.sets[set] ?? []).filter((box) => !isCovered(box, before));
    if (known !== undefined && more.length === 0) return;
    reached.set(to, known === undefined ? set : numberOf(component, [...before, ...more]));
    waiting.push(to);
  };
  for (let id = waiting.shift(); id !== undefined && spend(budget); id = waiting.shift()) {
    const node = graph.nodes[id];
    const set = reached.get(id);
    if (!node || set === undefined) continue;
    const moved = node.move ? applyOperation(component, set, node.move) : set;
    for (const act of node.acts) {
      const done = applyOperation(component, moved, act.operation);
      for (const edge of act.edges) if (follow(edge)) arrive(edge.to, applyOperation(component, done, edge.operation));
    }
  }
  return reached;
}

// Nothing in the whole graph changes the component: no need to walk it. A graph has no node that is not come to.
function staysAsItIs({ operations }: Graph, component: Component): boolean {
  return operations.every((operation) => applyOperation(component, component.start, operation) === component.start);
}

// Branches that lead back into a step: whether what was required there first may be lost.

import { askWanted, type Spot } from './asking.js';
import { actorOf, type Frame } from './frames.js';
import type { Graph, Node } from './graph.js';
import type { Question } from './question.js';
import type { Literal } from './slices.js';
import { readCondition, type Variable, type Wanted } from './variables.js';

/** Requirements that a branch back into a step may find lost, where `held` says that they held when it was first come to. */
export function askBack(
  graph: Graph,
  held: (frame: Frame, index: number, wanted: Wanted) => boolean,
): readonly Question[] {
  const found: Question[] = [];
  const asking = { graph, found, failing: new Map<string, readonly Literal[]>() };
  const known = new Map<string, boolean>();
  const isRead = (target: Node, variable: Variable): boolean => {
    const key = `${target.id} ${variable.index}`;
    const answer = known.get(key) ?? isReadUnder(graph, target, variable);
    known.set(key, answer);
    return answer;
  };
  for (const node of graph.nodes) {
    node.acts.forEach((act, number) => {
      act.edges.forEach((edge, at) => {
        const target = graph.nodes[edge.to];
        if (!edge.back || !node.frame || !target) return;
        for (const { condition } of node.frame.procedure.requires) {
          const wanted = readCondition(graph.frames.space, condition, actorOf(node.frame, 1));
          if (!wanted || !held(node.frame, target.index, wanted) || !isRead(target, wanted.variable)) continue;
          const spot: Spot = { node, point: { kind: 'edge', act: number, edge: at } };
          const claim = {
            kind: 'back-into-step',
            at: edge.taken.at ?? node.step?.at ?? condition.at,
            phase: 'after',
          } as const;
          askWanted(asking, spot, wanted, claim);
        }
      });
    });
  }
  return found;
}

// Whether something is read or turned from here on before the state is set anew: only then can it matter that it changed.
function isReadUnder({ nodes }: Graph, from: Node, variable: Variable): boolean {
  const seen = new Set([from.id]);
  const waiting = [from];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    if (node.acts.some(({ sets, phase }) => phase === 'after' && sets.some((each) => each.variable === variable)))
      continue;
    const { step } = node;
    if (step && step.measure.length + step.adjust.length > 0) return true;
    for (const { to } of node.acts.flatMap(({ edges }) => edges)) {
      const next = nodes[to];
      if (!next || seen.has(to)) continue;
      seen.add(to);
      waiting.push(next);
    }
  }
  return false;
}

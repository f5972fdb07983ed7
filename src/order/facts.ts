// What is known at each step over all paths to it, and which safety rules watch there.

import { placeOf } from './frames.js';
import type { Node } from './graph.js';
import { type Proving, spreadOf } from './proving.js';
import type { StateSet, StepFacts } from './result.js';
import type { Hit } from './search.js';
import { asStateSet, fullMask, maskOf, type Variable } from './variables.js';

/** The facts of every step that is reached, in the order of the steps; steps of a procedure that is run behind the step that runs it. */
export function findFacts(proving: Proving, hits: readonly Hit[]): readonly StepFacts[] {
  const { graph, world } = proving;
  const rulesAt = new Map<string, Set<string>>();
  for (const { question } of hits) {
    const node = graph.nodes[question.node];
    if (!question.triggers || !node?.frame) continue;
    const key = stepKey(node);
    rulesAt.set(key, (rulesAt.get(key) ?? new Set()).add(question.triggers.id));
  }
  const nodes = new Map<string, Node[]>();
  for (const node of graph.nodes) {
    if (node.kind !== 'step') continue;
    nodes.set(stepKey(node), [...(nodes.get(stepKey(node)) ?? []), node]);
  }
  const known = knownStates(proving);
  return graph.frames.all.flatMap((frame) =>
    frame.procedure.steps.flatMap((step, index) => {
      const key = `${frame.id} ${index}`;
      const own = nodes.get(key);
      if (!own) return [];
      const rules = world.rules.filter(({ id }) => rulesAt.get(key)?.has(id));
      const hazards = new Set([...rules.flatMap(({ hazard }) => hazard ?? []), ...step.hazards]);
      return [
        {
          place: placeOf(frame, step),
          before: known(own),
          hazards: [...hazards],
          rules: [...new Set(rules.map(({ id }) => id))],
        },
      ];
    }),
  );
}

function stepKey({ frame, index }: Node): string {
  return `${frame?.id ?? ''} ${index}`;
}

function knownStates(proving: Proving): (nodes: readonly Node[]) => readonly StateSet[] {
  const { space } = proving.graph.frames;
  const followed = space.variables
    .filter(({ kind }) => kind !== 'reading')
    .map((variable) => ({ variable, maskAt: followVariable(proving, variable) }));
  return (nodes) =>
    followed.flatMap(({ variable, maskAt }) => {
      const mask = nodes.reduce((bits, { id }) => bits | maskAt(id), 0n);
      return mask === 0n || mask === fullMask(variable) ? [] : [asStateSet(space, variable, mask)];
    });
}

// Only the variable's own component is asked, and each of its sets once.
function followVariable(proving: Proving, variable: Variable): (node: number) => bigint {
  const { components, places } = proving.slicer.sliceFor([variable]);
  const place = places.get(variable);
  const component = place && components[place.component];
  if (!place || !component) return () => 0n;
  const reached = spreadOf(proving, component);
  const masks = new Map<number, bigint>();
  return (node) => {
    const set = reached.get(node);
    if (set === undefined) return 0n;
    const known = masks.get(set);
    if (known !== undefined) return known;
    const atoms = (component.sets[set] ?? []).reduce((bits, box) => bits | (box[place.index] ?? 0n), 0n);
    const mask = maskOf(variable, atoms);
    masks.set(set, mask);
    return mask;
  };
}

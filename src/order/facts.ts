// What is known at each step over all paths to it, and which safety rules watch there.

import { placeOf } from './frames.js';
import type { Node } from './graph.js';
import { possibleAtoms } from './moment.js';
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

function followVariable(proving: Proving, variable: Variable): (node: number) => bigint {
  const slice = proving.slicer.sliceFor([variable]);
  const spreads = slice.components.map((component) => spreadOf(proving, component));
  return (node) => {
    const sets = spreads.map((reached) => reached.get(node));
    if (sets.some((set) => set === undefined)) return 0n;
    return maskOf(
      variable,
      possibleAtoms(
        slice,
        variable,
        sets.map((set) => set ?? 0),
      ),
    );
  };
}

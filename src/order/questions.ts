// Turns the needs, rules, readings and ends of a variant into questions at the points of its graph. Follows no path.

import { askFinal } from './ask-ends.js';
import { askStep } from './ask-steps.js';
import { type Asked, type Asking, ruleCases } from './asking.js';
import type { Question } from './question.js';

/** All questions of a variant. */
export function askAll(asked: Asked): readonly Question[] {
  const { graph } = asked;
  const asking: Asking = { ...asked, rules: ruleCases(asked), found: [], failing: new Map() };
  for (const node of graph.nodes) {
    if (node.kind === 'final') askFinal(asking, node);
    else askStep(asking, node);
  }
  return asking.found;
}

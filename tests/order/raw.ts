// Every yes that the proof's search gives, before anything is joined or left out as told already: to hold against the reference.

import type { Variant, World } from '../../src/model/resolved.js';
import { makeGraph, type Node } from '../../src/order/graph.js';
import { makeLaws } from '../../src/order/physics.js';
import { type Question, variablesOf } from '../../src/order/question.js';
import { askAll } from '../../src/order/questions.js';
import { searchCounted } from '../../src/order/search.js';
import { makeSlicer } from '../../src/order/slices.js';
import { findStart } from '../../src/order/start.js';
import type { Variable } from '../../src/order/variables.js';

/** Each fault, as the reference names it, with the length of the shortest path to it. */
export function searchEverything(variant: Variant, world: World): ReadonlyMap<string, number> {
  const graph = makeGraph(variant, world, 100_000);
  const laws = makeLaws(world, graph.frames.space);
  const slicer = makeSlicer(graph.frames.space, laws, findStart(graph.frames, world));
  const found = new Map<string, number>();
  if (slicer.impossible.length > 0) return found;
  // without `clear` every yes is told, also where the same was told before; what asks of the same variables goes together
  const everywhere = new Set(graph.nodes.map(({ id }) => id));
  const groups = new Map<string, Question[]>();
  for (const { clear, ...open } of askAll({ graph, world, laws, contested: [], nodesWhere: () => everywhere })) {
    const key = [...new Set(variablesOf(open).map(({ index }) => index))].sort().join(' ');
    groups.set(key, [
      ...(groups.get(key) ?? []),
      { ...open, id: `${open.id} ${open.node} ${JSON.stringify(open.point)}` },
    ]);
  }
  for (const questions of groups.values()) {
    const slice = slicer.sliceFor(questions.flatMap((question) => variablesOf(question)));
    const budget = { left: 1_000_000, explored: 0 };
    for (const { question, path } of searchCounted({ graph, slice, questions, counters: [], budget }).values()) {
      const node = graph.nodes[question.node];
      if (!node) continue;
      const key = nameQuestion(question, node);
      found.set(key, Math.min(found.get(key) ?? Number.POSITIVE_INFINITY, path.length));
    }
  }
  return found;
}

function nameVariable({ id, person }: Variable): string {
  return person === undefined ? id : `${id} ${person}`;
}

function nameQuestion({ claim, triggers, test }: Question, { frame, step, end }: Node): string {
  const at = frame ? [frame.end ?? '', ...frame.calls, step?.id].join('/') : `end ${end}`;
  if (!claim) return `trigger @ ${at} @ ${triggers?.id}`;
  const { kind, wanted, rule, value, input, reading, callee, changed } = claim;
  const fact = wanted ? `${nameVariable(wanted.variable)}=${wanted.texts.join('|')}` : '';
  const detail: Readonly<Record<string, string>> = {
    'moves-when': `${value} ${fact}`,
    'instrument-needs': `${value} ${fact}`,
    'requires-not-met-at-run': `${callee} ${fact}`,
    'place-not-met-at-run': `${callee} ${fact}`,
    'rule-broken': `${rule?.id} ${fact}`,
    'unchanged-broken': `${rule?.id} ${changed?.state} ${changed?.by}`,
    'physics-forbids-set': `${changed?.state} ${changed?.by}`,
    'derived-from-stale': `${value} ${input} ${reading}`,
    'adjust-without-reading': `${value}`,
    'value-stale': `${value}`,
    'value-not-passed-at-done': `${value}`,
    'not-restored': test.kind === 'exists' && test.literals[0] ? nameVariable(test.literals[0].variable) : '',
  };
  return `${kind} @ ${at} @ ${detail[kind] ?? fact}`;
}

// Follows every path, shortest first, for one family of questions, and keeps the first path to each yes. Counts of loops
// are followed only as far as they are named; whether a path keeps the others is found by replaying it.

import type { Counter, Edge, Graph, Node, Toll } from './graph.js';
import { after, exists, isMet, type Moment, type Sets, startSets } from './moment.js';
import type { Point, Question } from './question.js';
import type { Slice } from './slices.js';
import { type Budget, spend } from './spread.js';

/** One step of a path: the node, and the way it was left. */
export interface Stride {
  readonly node: Node;
  readonly act: number;
  readonly edge: number;
}

/** The first yes to a question: the path to its node, and the question there. */
export interface Hit {
  readonly question: Question;
  readonly path: readonly Stride[];
}

export interface Search {
  readonly graph: Graph;
  readonly slice: Slice;
  /** Of one family. */
  readonly questions: readonly Question[];
  readonly counters: readonly Counter[];
  readonly budget: Budget;
}

interface State {
  readonly node: Node;
  readonly sets: Sets;
  /** What the family asks was told on this path and has not been mended since. */
  readonly told: boolean;
  readonly counts: readonly number[];
  readonly from?: { readonly state: State; readonly act: number; readonly edge: number };
}

/** The first path to a yes of each question, by question id. Stops early where all of `only` have one. */
export function search(input: Search, only?: ReadonlySet<string>): ReadonlyMap<string, Hit> {
  const { graph, slice, counters, budget } = input;
  const hits = new Map<string, Hit>();
  const byNode = questionsByNode(input.questions);
  const clear = input.questions[0]?.clear;
  const alive = counters.map((counter) => aliveNodes(graph, counter));
  const seen = new Set<string>();
  const queue: State[] = [];
  const arrive = (state: State): void => {
    const key = `${state.node.id}|${state.sets.join(',')}|${state.told ? 1 : 0}|${state.counts.join(',')}`;
    if (seen.has(key)) return;
    seen.add(key);
    queue.push(state);
  };
  for (const id of graph.entries) {
    const node = graph.nodes[id];
    if (node) arrive({ node, sets: startSets(slice), told: false, counts: counters.map(() => 0) });
  }
  for (let i = 0; i < queue.length && spend(budget); i += 1) {
    const state = queue[i];
    if (!state) break;
    const questions = byNode.get(state.node.id) ?? [];
    const judge = (point: Point, moment: Moment, told: boolean): boolean => {
      let now = told && !(clear && !exists(slice, clear, moment.sets));
      for (const question of questions) {
        if (!isSamePoint(question.point, point) || now || !isMet(slice, question.test, moment)) continue;
        if (!hits.has(question.id)) hits.set(question.id, { question, path: pathTo(state) });
        now = clear !== undefined;
      }
      return now;
    };
    const may = (way: Toll): boolean => countOn(counters, way, state.counts) !== undefined;
    walk(state, { slice, judge, may }, (act, edge, way, sets, told) => {
      const counts = countOn(counters, way, state.counts);
      const node = graph.nodes[way.to];
      if (!counts || !node) return;
      const kept = counts.map((count, n) => (alive[n]?.has(node.id) ? count : 0));
      arrive({ node, sets, told, counts: kept, from: { state, act, edge } });
    });
    if (only && [...only].every((id) => hits.has(id))) break;
  }
  return hits;
}

/** Questions by the node that they are asked at. */
export function questionsByNode(questions: readonly Question[]): ReadonlyMap<number, readonly Question[]> {
  const byNode = new Map<number, Question[]>();
  for (const question of questions) {
    const list = byNode.get(question.node);
    if (list) list.push(question);
    else byNode.set(question.node, [question]);
  }
  return byNode;
}

function isSamePoint(a: Point, b: Point): boolean {
  if (a.kind === 'act' && b.kind === 'act') return a.act === b.act;
  if (a.kind === 'edge' && b.kind === 'edge') return a.act === b.act && a.edge === b.edge;
  return a.kind === b.kind;
}

interface Walking {
  readonly slice: Slice;
  readonly judge: (point: Point, moment: Moment, told: boolean) => boolean;
  /** Whether the counts allow an act or a way out. */
  readonly may: (way: Toll) => boolean;
}

// One node: on arrival, in place, each act, each way out.
function walk(
  { node, sets, told }: State,
  { slice, judge, may }: Walking,
  leave: (act: number, edge: number, way: Edge, sets: Sets, told: boolean) => void,
): void {
  const arrived = judge({ kind: 'before' }, { sets }, told);
  const moved = node.move ? after(slice, sets, node.move).sets : sets;
  const entered = judge({ kind: 'entered' }, { sets: moved }, arrived);
  node.acts.forEach((act, number) => {
    if (!may(act.toll)) return;
    const done = after(slice, moved, act.operation);
    const acted = judge({ kind: 'act', act: number }, done, entered);
    act.edges.forEach((way, edge) => {
      if (!may(way)) return;
      const left = after(slice, done.sets, way.operation);
      leave(number, edge, way, left.sets, judge({ kind: 'edge', act: number, edge }, left, acted));
    });
  });
}

/** Walks one node with given sets, for questions answered without a path. */
export function answerAt(slice: Slice, node: Node, sets: Sets, questions: readonly Question[]): ReadonlySet<string> {
  const yes = new Set<string>();
  const judge = (point: Point, moment: Moment): boolean => {
    for (const { id, point: own, test } of questions)
      if (isSamePoint(own, point) && isMet(slice, test, moment)) yes.add(id);
    return false;
  };
  walk({ node, sets, told: false, counts: [] }, { slice, judge, may: () => true }, () => undefined);
  return yes;
}

function pathTo(state: State): readonly Stride[] {
  const path: Stride[] = [];
  for (let { from } = state; from; from = from.state.from)
    path.unshift({ node: from.state.node, act: from.act, edge: from.edge });
  return path;
}

// The counts after a way; undefined where they do not allow it.
function countOn(counters: readonly Counter[], way: Toll, counts: readonly number[]): readonly number[] | undefined {
  if (counters.length === 0) return counts;
  const next = counts.map((count, i) => (counters[i]?.frame === way.enters && way.enters ? 0 : count));
  for (const needed of way.after) {
    const at = counters.indexOf(needed);
    if (at >= 0 && (next[at] ?? 0) < needed.max) return undefined;
  }
  const used = way.uses ? counters.indexOf(way.uses) : -1;
  if (!way.uses || used < 0) return next;
  if ((next[used] ?? 0) >= way.uses.max) return undefined;
  next[used] = (next[used] ?? 0) + 1;
  return next;
}

// Where a count still matters: nodes from which a way that asks for it can be reached before its procedure is begun anew.
function aliveNodes(graph: Graph, counter: Counter): ReadonlySet<number> {
  const into = new Map<number, number[]>();
  const alive = new Set<number>();
  for (const node of graph.nodes) {
    for (const { edges } of node.acts) {
      for (const way of edges) {
        if (way.uses === counter || way.after.includes(counter)) alive.add(node.id);
        if (way.enters !== counter.frame) into.set(way.to, [...(into.get(way.to) ?? []), node.id]);
      }
    }
  }
  const waiting = [...alive];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    for (const before of into.get(id) ?? []) {
      if (alive.has(before)) continue;
      alive.add(before);
      waiting.push(before);
    }
  }
  return alive;
}

/** The counts that a path does not keep: none for a path that can be walked. */
export function brokenCounts(path: readonly Toll[]): readonly Counter[] {
  const counts = new Map<Counter, number>();
  const broken = new Set<Counter>();
  for (const { uses, after: needed, enters } of path) {
    if (enters) for (const counter of counts.keys()) if (counter.frame === enters) counts.delete(counter);
    for (const counter of needed) if ((counts.get(counter) ?? 0) < counter.max) broken.add(counter);
    if (!uses) continue;
    const count = (counts.get(uses) ?? 0) + 1;
    counts.set(uses, count);
    if (count > uses.max) broken.add(uses);
  }
  return [...broken];
}

function tollsOf(path: readonly Stride[]): readonly Toll[] {
  return path.flatMap(({ node, act, edge }) => node.acts[act]?.edges[edge] ?? []);
}

/** `search` until every path found keeps all counts: those that a path breaks are followed in the next turn. */
export function searchCounted(input: Search): ReadonlyMap<string, Hit> {
  const sure = new Map<string, Hit>();
  const first = search(input);
  for (const [id, hit] of first) {
    const found = refine(input, id, hit);
    if (found) sure.set(id, found);
  }
  return sure;
}

function refine(input: Search, id: string, first: Hit): Hit | undefined {
  const counters = new Set<Counter>();
  let hit: Hit | undefined = first;
  while (hit) {
    const broken = brokenCounts([...tollsOf(hit.path), ...lastToll(input.graph, hit.question)]);
    if (broken.length === 0) return hit;
    if (broken.every((counter) => counters.has(counter))) throw new Error('A path broke a count that was followed');
    for (const counter of broken) counters.add(counter);
    if (input.budget.left < 0) return undefined;
    hit = search({ ...input, counters: [...counters] }, new Set([id])).get(id);
  }
  return undefined;
}

// A question on the way out, or after an act that failed, stands only where the counts let it come to that.
function lastToll({ nodes }: Graph, { node, point }: Question): readonly Toll[] {
  if (point.kind !== 'act' && point.kind !== 'edge') return [];
  const act = nodes[node]?.acts[point.act];
  const toll = point.kind === 'edge' ? act?.edges[point.edge] : act?.toll;
  return toll ? [toll] : [];
}
